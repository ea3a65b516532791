import type { Measure } from './measures.js';
import type { WrittenStaff } from './mei/score.js';

const BAR = 60;
const POSITION = 48;
const LETTER = 18;

/** An estimate of what each bar needs across, in the engraver's units: places where something is written, and texts. */
export function barWidths(
  staves: readonly WrittenStaff[],
  measures: readonly Measure[],
  chords: readonly { readonly tick: number; readonly text: string }[],
): readonly number[] {
  let next = 0;
  return measures.map(({ endTick }, index) => {
    const places = new Set<number>();
    let letters = 0;
    for (const { bars, words } of staves) {
      let inStaff = 0;
      for (const piece of (bars[index] ?? []).flat()) {
        places.add(piece.start);
        for (const { id } of piece.nth === 0 ? (piece.event?.notes ?? []) : [])
          inStaff += words.get(id)?.length ?? 0;
      }
      letters = Math.max(letters, inStaff);
    }
    let named = 0;
    for (let chord = chords[next]; chord && chord.tick < endTick; chord = chords[next]) {
      named += chord.text.length + 1;
      next += 1;
    }
    return BAR + Math.max(POSITION * Math.max(2, places.size), LETTER * letters, LETTER * named);
  });
}
