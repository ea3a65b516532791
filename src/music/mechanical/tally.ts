import { barFinder, type Clock } from '../../midi/index.js';
import { type BarCount, barRanges } from './bars.js';
import type { Measure, MeasureName } from './types.js';

/** What was looked at, in order, in columns: where each thing stands, and whether it is mechanical. */
export interface Verdicts {
  readonly ticks: ArrayLike<number>;
  readonly mechanical: readonly boolean[];
}

/** Counts verdicts over the whole and by bar. */
export function tally(
  measure: MeasureName,
  { ticks, mechanical }: Verdicts,
  clock: Clock,
  threshold: { readonly share: number; readonly least: number },
): Measure {
  const barAt = barFinder(clock);
  const bars: { bar: number; count: number; of: number }[] = [];
  let count = 0;
  for (let at = 0; at < mechanical.length; at++) {
    const one = mechanical[at] ? 1 : 0;
    count += one;
    const bar = barAt(ticks[at] ?? 0)?.bar;
    if (bar === undefined) continue;
    let last = bars.at(-1);
    if (last?.bar !== bar) {
      last = { bar, count: 0, of: 0 };
      bars.push(last);
    }
    last.of += 1;
    last.count += one;
  }
  const counts: readonly BarCount[] = bars;
  return { measure, count, of: mechanical.length, bars: barRanges(counts, threshold.share, threshold.least) };
}
