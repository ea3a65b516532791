import type { Clock } from '../../midi/index.js';
import { type BarCount, barRanges } from './bars.js';
import type { Measure, MeasureName } from './types.js';

/** One thing that was looked at, and whether it is mechanical. */
export interface Verdict {
  readonly tick: number;
  readonly mechanical: boolean;
}

/** Counts verdicts over the whole and by bar. */
export function tally(
  measure: MeasureName,
  verdicts: readonly Verdict[],
  clock: Clock,
  threshold: { readonly share: number; readonly least: number },
): Measure {
  const bars: { bar: number; count: number; of: number }[] = [];
  let count = 0;
  for (const { tick, mechanical } of verdicts) {
    if (mechanical) count += 1;
    const bar = clock.position(tick)?.bar;
    if (bar === undefined) continue;
    let last = bars.at(-1);
    if (last?.bar !== bar) {
      last = { bar, count: 0, of: 0 };
      bars.push(last);
    }
    last.of += 1;
    if (mechanical) last.count += 1;
  }
  const counts: readonly BarCount[] = bars;
  return { measure, count, of: verdicts.length, bars: barRanges(counts, threshold.share, threshold.least) };
}
