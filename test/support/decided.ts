import type { Decision } from '../../src/compile/decide/decision.js';
import { decide } from '../../src/compile/decide/index.js';
import type { ArticulationMap } from '../../src/map/types.js';
import { lineOfNotes, msTicks } from './line.js';
import { mapOf } from './map.js';
import type { SongOptions, TestNote, Timed } from './song.js';

/** Decides a line; a tick is a millisecond unless options say otherwise. */
export function decided(
  map: ArticulationMap,
  notes: readonly TestNote[],
  others: readonly Timed[] = [],
  options: SongOptions = msTicks,
): readonly Decision[] {
  return decide(lineOfNotes(notes, others, options, map), map).decided.decisions;
}

/** Which of the notes fit one condition, written as in a map. A tick is a millisecond. */
export function fitting(
  condition: string,
  notes: readonly TestNote[],
  others: readonly Timed[] = [],
  options: SongOptions = msTicks,
): readonly boolean[] {
  const map = mapOf(`
chords: each
articulations:
  "no": {switch: {channel: 1}}
  "yes": {switch: {channel: 2}}
rules:
  - when: ${condition}
    use: "yes"
  - use: "no"
`);
  return decided(map, notes, others, options).map(({ articulation }) => articulation === 'yes');
}

/** Detached notes, one after another, from lengths in ms; 20 ms between them. */
export function detached(lengths: readonly number[], pitches: readonly number[] = []): readonly TestNote[] {
  let tick = 0;
  return lengths.map((length, index) => {
    const note = { tick, end: tick + length, pitch: pitches[index] ?? 60 };
    tick += length + 20;
    return note;
  });
}
