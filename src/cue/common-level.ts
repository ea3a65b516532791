import { type Diagnostic, diagnostic, quoted } from '../diagnostics/index.js';
import type { ArticulationMap } from '../map/index.js';
import type { PlacedPart } from './plan.js';
import type { Cue, CuePart } from './types.js';

/** How loud every measured library of a cue is at mf and level 0. */
export interface CommonLevel {
  /** Unit: LUFS. */
  readonly loudness: number;
  /** Whether the cue says it itself. */
  readonly isSaid: boolean;
}

/**
 * What the levels of measured libraries are relative to: what the cue says, else the softest of its measured libraries
 * at mf, since a controller only makes softer than the library is. Parts that were left out with `--part` count, so that
 * it does not hang on which parts are compiled. Undefined where no map has a reference-level.
 */
export function commonLevel(
  { referenceLevel, parts, leftOut = [] }: Cue,
  maps: ReadonlyMap<string, ArticulationMap>,
): CommonLevel | undefined {
  const measured = [...parts, ...leftOut].flatMap((part) => {
    const own = maps.get(part.map.text);
    const layers = part.layers.flatMap(({ map }) => (map && maps.get(map.text)) ?? []);
    return own?.referenceLevel === undefined ? [] : [own, ...layers];
  });
  const levels = measured.flatMap((map) => map.referenceLevel ?? []);
  if (levels.length === 0) return undefined;
  return { loudness: referenceLevel ?? Math.min(...levels), isSaid: referenceLevel !== undefined };
}

/**
 * What brings a library to the common level. A layer is measured against its part, so that both have to be measured.
 *
 * @param base the map of the part that it is a layer of
 * @returns dB; undefined for a library that was not measured
 */
function broughtBy(
  common: CommonLevel | undefined,
  { referenceLevel }: ArticulationMap,
  base?: ArticulationMap,
): number | undefined {
  if (!common || referenceLevel === undefined) return undefined;
  if (base && base.referenceLevel === undefined) return undefined;
  return common.loudness - referenceLevel;
}

/** A level as a library's controller gets it. */
export interface WrittenLevel {
  /** Unit: dB. */
  readonly level: number;
  /** What of it brings a measured library to the common level. Unit: dB. */
  readonly broughtBy?: number;
  /** Whether it brings it to a loudness that the cue says itself. */
  readonly isBrought?: boolean;
}

/** A level as it is written for a library; nothing where none is asked for. Of a layer, `base` is its part's map. */
export function writtenLevel(
  common: CommonLevel | undefined,
  level: number | undefined,
  map: ArticulationMap,
  base?: ArticulationMap,
): WrittenLevel | undefined {
  if (level === undefined) return undefined;
  const by = broughtBy(common, map, base);
  if (by === undefined || !common) return { level };
  return { level: level + by, broughtBy: by, isBrought: common.isSaid };
}

/** What of a level a job tells. */
export function jobLevel(written: WrittenLevel | undefined): { readonly broughtBy?: number } {
  return written?.broughtBy === undefined ? {} : { broughtBy: written.broughtBy };
}

/** Whether it was measured how loud libraries are: then the rest of what was measured is believed too. */
export function areMeasured(...maps: readonly ArticulationMap[]): boolean {
  return maps.every(({ referenceLevel }) => referenceLevel !== undefined);
}

/** The level of a part. That of a layer is against it, so that the part has to have one. */
export function partLevel({ level, layers }: CuePart): number | undefined {
  return level ?? (layers.some((layer) => layer.level !== undefined) ? 0 : undefined);
}

function isLevelled(part: CuePart): boolean {
  return partLevel(part) !== undefined;
}

/**
 * level-apart: a part that is not heard at the common level, while others are: its map was not measured, or it has no
 * level. Nothing where none is moved.
 */
export function levelsApart(
  common: CommonLevel | undefined,
  placed: readonly PlacedPart[],
): readonly Diagnostic[] {
  const isBrought = placed.some(
    ({ wanted, map }) => isLevelled(wanted) && (broughtBy(common, map) ?? 0) !== 0,
  );
  if (!common || !isBrought) return [];
  const at = `${common.loudness.toFixed(1)} LUFS at mf`;
  return placed.flatMap(({ wanted, map }): Diagnostic[] => {
    const isMeasured = map.referenceLevel !== undefined;
    if (isLevelled(wanted) === isMeasured) return [];
    const [why, hint] = isMeasured
      ? ['it has no level', 'level: 0 brings it to the others']
      : [`${quoted(map.file)} has no reference-level`, 'keyslip measure finds reference-level'];
    const message = `${quoted(wanted.name)} stays as loud as its library is, since ${why}; measured parts with a level are brought to ${at}`;
    return [diagnostic('level-apart', wanted.place, message, hint)];
  });
}
