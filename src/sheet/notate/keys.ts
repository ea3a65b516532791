import type { Measure } from './measures.js';

/** Most sharps or flats of a key signature. */
const MOST = 7;

/** The key signature of each bar: the last one whose tick lies at or before its bar line; the first from the beginning. */
export function keysByBar(
  keys: readonly { readonly tick: number; readonly fifths: number }[],
  measures: readonly Measure[],
): readonly number[] {
  let next = 1;
  let fifths = keys[0]?.fifths ?? 0;
  return measures.map(({ tick }) => {
    for (let key = keys[next]; key && key.tick <= tick; key = keys[next]) {
      fifths = key.fifths;
      next += 1;
    }
    return Math.max(-MOST, Math.min(MOST, fifths));
  });
}
