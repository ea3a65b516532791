import type { Clock } from './clock.js';

/** A bar, from its first tick to before that of the next. */
export interface Bar {
  readonly bar: number;
  readonly from: number;
  readonly to: number;
}

/** The bars of ticks; null where there are no bars. Quickest where ticks come in order: a bar is worked out once then. */
export function barFinder(clock: Clock): (tick: number) => Bar | null {
  let last: Bar | null = null;
  return (tick) => {
    if (last && tick >= last.from && tick < last.to) return last;
    const bar = clock.position(tick)?.bar;
    const from = bar === undefined ? null : clock.barStart(bar);
    const to = bar === undefined ? null : clock.barStart(bar + 1);
    last = bar === undefined || from === null || to === null ? null : { bar, from, to };
    return last;
  };
}
