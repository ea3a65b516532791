import { type BarTimes, beginOf } from './data.js';

/** Bars that are heard again and again: the first and the last, by index. */
export interface Marked {
  readonly first: number;
  readonly last: number;
}

/** No bar is marked. */
export const noMarks = undefined;

/**
 * Marks a bar: the first one alone; one outside widens the marks up to itself; one inside is all that is marked then, and
 * the only one that is marked is unmarked again.
 */
export function marked(marks: Marked | undefined, bar: number): Marked | undefined {
  if (!marks) return { first: bar, last: bar };
  if (bar < marks.first) return { first: bar, last: marks.last };
  if (bar > marks.last) return { first: marks.first, last: bar };
  return marks.first === marks.last ? noMarks : { first: bar, last: bar };
}

/** From when to when marked bars are heard. Unit: ms. */
export function rangeOf(
  marks: Marked,
  bars: readonly BarTimes[],
): { readonly fromMs: number; readonly toMs: number } | undefined {
  const [first, last] = [bars[marks.first], bars[marks.last]];
  if (!first || !last) return undefined;
  const [fromMs, toMs] = [Math.max(0, beginOf(first)), last.toMs];
  return toMs > fromMs ? { fromMs, toMs } : undefined;
}
