import type { Decision } from '../../src/compile/decide/decision.js';
import { articulationOf, decide, decisionsOf, onsetOf } from '../../src/compile/decide/index.js';
import type { CompiledPart } from '../../src/compile/index.js';
import type { ArticulationMap } from '../../src/map/types.js';
import { noteEnd, noteTick, onOf } from '../../src/midi/index.js';
import { lineOfNotes, msTicks } from './line.js';
import { mapOf } from './map.js';
import type { SongOptions, TestNote, Timed } from './song.js';

/** What was decided of a part's notes, in order. */
export function decisionsIn(part: Pick<CompiledPart, 'decided'> | undefined): readonly Decision[] {
  return part ? [...decisionsOf(part.decided)] : [];
}

/** The same notes where they stand now. */
export function nowIn(part: Pick<CompiledPart, 'retimed'> | undefined) {
  const decided = part?.retimed.decided;
  if (!decided) return [];
  return Array.from({ length: decided.length }, (_, row) => {
    const { pitch, velocity, chord } = decided.noteOf(row);
    const note = {
      pitch,
      velocity,
      chord,
      onIndex: onOf(decided, row),
      onset: onsetOf(decided, row),
      tick: noteTick(decided, row),
      endTick: noteEnd(decided, row),
    };
    return { articulation: articulationOf(decided, row), note };
  });
}

/** Decides a line; a tick is a millisecond unless options say otherwise. */
export function decided(
  map: ArticulationMap,
  notes: readonly TestNote[],
  others: readonly Timed[] = [],
  options: SongOptions = msTicks,
): readonly Decision[] {
  return [...decisionsOf(decide(lineOfNotes(notes, others, options, map), map).decided)];
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
