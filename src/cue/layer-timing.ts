import { bindSpeaksAfter, decide } from '../compile/index.js';
import type { ArticulationMap } from '../map/index.js';
import type { Duration } from '../midi/index.js';
import { asPlayed, type TimingOptions } from '../timing/index.js';
import { areMeasured } from './common-level.js';
import type { LayerNote } from './layer.js';
import type { CueJob } from './plan.js';
import type { Played } from './played.js';
import type { CueLayer, CuePart } from './types.js';

/** A layer's notes stand where the part's were pulled, rolled and loosened to; the rest is its library's own. */
export function layerTiming(
  { timing }: CuePart,
  layer: CueLayer,
  isTogether: boolean,
): TimingOptions | undefined {
  const { compensate = false, joins = false } = layer.timing ?? timing ?? {};
  if (isTogether) return { ...asPlayed, compensate: true, joins, ...(timing ? { seed: timing.seed } : {}) };
  if (!compensate && !joins) return undefined;
  return { ...asPlayed, compensate, joins, ...(timing ? { seed: timing.seed } : {}) };
}

/**
 * Whether a layer is heard with its part although the part is not compensated: both libraries were measured, and nothing
 * is said of the layer's timing.
 */
export function isTimedByMeasurement(
  { timing }: CuePart,
  layer: CueLayer,
  base: ArticulationMap,
  map: ArticulationMap,
): boolean {
  return layer.timing === undefined && timing?.compensate !== true && areMeasured(base, map);
}

/** How late the notes are heard that those of a layer double. */
export function lateCopies(
  { line }: Played,
  notes: readonly LayerNote[],
  base: ArticulationMap,
): NonNullable<CueJob['heardAfter']> {
  const speaksAfter = bindSpeaksAfter(base, line);
  const { decided } = decide(line, base);
  const rows = new Map(Array.from(decided.on, (onIndex, row) => [onIndex, row]));
  const late = new Map<string, Duration>();
  for (const { of, tick, pitch } of notes) {
    const row = rows.get(line.notes[of]?.onIndex ?? -1);
    if (row !== undefined) late.set(`${tick} ${pitch}`, speaksAfter(decided.decision(row)));
  }
  return ({ tick, pitch }) => late.get(`${tick} ${pitch}`) ?? { unit: 'ms', ms: 0 };
}
