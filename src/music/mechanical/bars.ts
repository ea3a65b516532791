import type { BarRange } from '../../midi/index.js';

/** What was found in one bar: how many of what was looked at are mechanical. */
export interface BarCount {
  readonly bar: number;
  readonly count: number;
  readonly of: number;
}

/**
 * Joins bars into ranges: successive bars (those with nothing to look at are skipped) in each of which the share
 * of mechanical ones reaches `share` (0: where there is any), and that have at least `least` of them together.
 *
 * @param bars in order
 */
export function barRanges(bars: readonly BarCount[], share: number, least: number): readonly BarRange[] {
  const ranges: BarRange[] = [];
  let open: { from: number; to: number; count: number } | undefined;
  const close = () => {
    if (open && open.count >= least) ranges.push({ from: open.from, to: open.to });
    open = undefined;
  };
  for (const { bar, count, of } of bars) {
    if (of === 0) continue;
    if (count === 0 || count < share * of) close();
    else if (open) open = { from: open.from, to: bar, count: open.count + count };
    else open = { from: bar, to: bar, count };
  }
  close();
  return ranges;
}
