import type { Measure } from './measures.js';
import type { ChordName } from './written.js';

/** The chord names of each bar, in order; what lies behind the last bar is named in it. */
export function chordsByBar(
  chords: readonly ChordName[],
  measures: readonly Measure[],
): readonly (readonly ChordName[])[] {
  let next = 0;
  return measures.map(({ endTick }, index) => {
    const isLast = index === measures.length - 1;
    const named: ChordName[] = [];
    for (let chord = chords[next]; chord && (isLast || chord.tick < endTick); chord = chords[next]) {
      named.push(chord);
      next += 1;
    }
    return named;
  });
}
