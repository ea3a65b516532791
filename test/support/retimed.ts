import { type CompiledPart, compileParts } from '../../src/compile/index.js';
import type { ArticulationMap } from '../../src/map/types.js';
import { asPlayed, type TimingOptions } from '../../src/timing/options.js';
import { nowIn } from './decided.js';
import { mapOf } from './map.js';
import { type SongOptions, songOf, type TestNote, type Timed, trackOf } from './song.js';

/** A map of a short and a long articulation, each with a time to speak. */
export const speaking = (short: string, long: string, more = '') =>
  mapOf(`
articulations:
  short: {switch: {note: C0}, speaks-after: ${short}}
  long: {switch: {note: D0}, speaks-after: ${long}${more}}
rules:
  - when: {held: {below: 200ms}}
    use: short
  - use: long
`);

/** A part with its timing changed; at ppq 500 and 120 bpm a tick is a millisecond. */
export function retimed(
  map: ArticulationMap,
  notes: readonly TestNote[],
  timing: Partial<TimingOptions>,
  others: readonly Timed[] = [],
  options: SongOptions = { ppq: 500 },
): { readonly part: CompiledPart; readonly codes: readonly string[] } {
  const song = songOf([trackOf(notes, others)], options);
  const { parts, diagnostics } = compileParts(song, [
    { part: { track: 1, trackName: '', channel: 0 }, map, timing: { ...asPlayed, ...timing } },
  ]);
  const [part] = parts;
  if (!part) throw new Error('no part');
  return { part, codes: diagnostics.map(({ code }) => code) };
}

/** Where notes begin and end, in ticks. */
export const times = (part: CompiledPart) => nowIn(part).map(({ note }) => [note.tick, note.endTick]);
