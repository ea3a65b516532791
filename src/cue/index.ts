// Cues: a piece of several parts, read and planned as jobs for the compiler.
import { type Compiled, compile, ornamented, takeStored, withStored } from '../compile/index.js';
import { type Diagnostic, isError, type Outcome } from '../diagnostics/index.js';
import type { ArticulationMap } from '../map/index.js';
import { type Song, type Track, withTracks } from '../midi/index.js';
import { byChannel } from './by-channel.js';
import { commonLevel, levelsApart } from './common-level.js';
import { type ChannelEdit, edited } from './edit.js';
import { inTermsOfCues } from './hints.js';
import { type PlannedCue, placeParts, prerolled } from './plan.js';
import { planPart } from './plan-part.js';
import type { PartPlan } from './planning.js';
import type { Cue } from './types.js';

export { namesByChannel } from './by-channel.js';
export { cueTextWithMap, type MapOwner } from './edit-text.js';
export type { CueJob, PlannedCue } from './plan.js';
export { isCue, readCue, strayPath } from './read/index.js';
export { partsFor } from './tracks.js';
export type { Cue, CueDynamics, CueLayer, CuePart, Located } from './types.js';
export { inTermsOfCues };

/** What a cue names: the source, and the maps by the paths that the cue has for them. */
export interface CueMaterial {
  readonly song: Song;
  readonly maps: ReadonlyMap<string, ArticulationMap>;
}

/** A compiled cue, and the music that its proof has to find in it. */
export interface CompiledCue extends Compiled {
  readonly planned: PlannedCue;
}

/** The paths of every map that a cue names, each once, with the first place that names it. */
export function mapsOf({ parts }: Pick<Cue, 'parts'>): readonly Cue['source'][] {
  const named = parts.flatMap(({ map, layers }) => [map, ...layers.flatMap((layer) => layer.map ?? [])]);
  return [...new Map(named.reverse().map((spelled) => [spelled.text, spelled])).values()].reverse();
}

/** A cue of some of its parts; the tracks of the others stay as they are in the source. */
export function onlyParts(cue: Cue, names: readonly string[]): Cue {
  if (names.length === 0) return cue;
  return {
    ...cue,
    parts: cue.parts.filter(({ name }) => names.includes(name)),
    leftOut: cue.parts.filter(({ name }) => !names.includes(name)),
  };
}

/** Finds the parts of a cue in its source, and puts in what the cue asks for besides switches. */
export function planCue(cue: Cue, { song: whole, maps }: CueMaterial): Outcome<PlannedCue> {
  const { song: taken } = takeStored(whole);
  const { placed: found, diagnostics: ofPlaces } = placeParts(cue, taken, maps);
  const source = ornamented(
    taken,
    found.flatMap(({ map, parts }) => parts.map(({ track }) => ({ track, map }))),
  );
  const { song: original, placed, diagnostics: ofMarks } = byChannel(source, found);
  const { value: song, diagnostics: ofPreroll } = prerolled(cue, original);
  if (!song) return { value: undefined, diagnostics: ofPreroll };
  const plans: PartPlan[] = [];
  const common = commonLevel(cue, maps);
  let next = song.tracks.length + 1;
  for (const one of placed) {
    const plan = planPart(song, cue, maps, one, next, common);
    next += plan.added.length;
    plans.push(plan);
  }
  const diagnostics = [
    ...ofPlaces,
    ...ofMarks,
    ...levelsApart(common, placed),
    ...plans.flatMap((plan) => plan.diagnostics),
  ];
  const isWhole = placed.length === cue.parts.length;
  if (!isWhole || diagnostics.some(isError)) return { value: undefined, diagnostics };
  const planned = withTracks(
    song,
    editedTracks(song, plans),
    plans.flatMap(({ added }) => added),
  );
  const jobs = plans.flatMap((plan) => plan.jobs);
  return { value: { song: planned, original: song === original ? planned : original, jobs }, diagnostics };
}

function editedTracks(song: Song, plans: readonly PartPlan[]): ReadonlyMap<number, Track> {
  const edits = new Map<number, ChannelEdit[]>();
  for (const { track, edit } of plans.flatMap((plan) => plan.edits)) {
    const others = edits.get(track);
    if (others) others.push(edit);
    else edits.set(track, [edit]);
  }
  const changed = new Map<number, Track>();
  for (const track of song.tracks) {
    const now = edited(track, edits.get(track.number) ?? []);
    if (now !== track) changed.set(track.number, now);
  }
  return changed;
}

/**
 * Compiles a cue: the source with everything that the cue asks for. Errors leave the value out.
 *
 * @param isSaid whether the result says what its parts were compiled with
 */
export function compileCue(
  cue: Cue,
  material: CueMaterial,
  onPart: (begun: number, of: number, name: string, doing: string, share?: number) => void = () => {},
  isSaid = false,
): Outcome<CompiledCue> {
  const { value, diagnostics: found } = planCue(cue, material);
  const planned = value && isSaid ? saying(value, cue.preroll) : value;
  if (!planned) return { value: undefined, diagnostics: found };
  const { value: compiled, diagnostics } = compile(
    planned.song,
    planned.jobs,
    planned.original,
    (begun, doing, share) =>
      onPart(begun, planned.jobs.length, planned.jobs[begun - 1]?.name ?? '', doing, share),
  );
  const all: readonly Diagnostic[] = [...found, ...diagnostics.map(inTermsOfCues)];
  return { value: compiled && { ...compiled, planned }, diagnostics: all };
}

function saying({ song, original, jobs }: PlannedCue, preroll: number): PlannedCue {
  const said = withStored(song, jobs, preroll);
  return { song: said, original: original === song ? said : original, jobs };
}

export { schemaText as cueSchemaText } from './read/schema.generated.js';
