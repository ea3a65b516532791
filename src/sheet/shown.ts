import type { BarRange, Clock } from '../midi/index.js';

/** A stretch of time in ticks, from the first up to the last, which is left out. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** Where bars begin and end; everything, where there are none. */
export function spanOf(clock: Clock, bars: BarRange | undefined): Span {
  const from = bars && clock.barStart(bars.from);
  const to = bars && clock.barStart(bars.to + 1);
  return { from: from ?? 0, to: to ?? Number.POSITIVE_INFINITY };
}

/** Whether something in some bars, or in none in particular, is to be seen among these bars. */
export function isShown(
  { bar, toBar = bar }: { readonly bar?: number; readonly toBar?: number },
  bars: BarRange | undefined,
): boolean {
  if (!bars || bar === undefined || toBar === undefined) return true;
  return bar <= bars.to && toBar >= bars.from;
}
