import type { Clock } from '../../midi/index.js';

/** The bar of a tick; undefined where there are no bars. A bar is looked for once, since most are asked for in order. */
export function barsOf(clock: Clock): (tick: number) => number | undefined {
  let [bar, from, to]: [number | undefined, number, number] = [undefined, 0, 0];
  return (tick) => {
    if (tick >= from && tick < to) return bar;
    bar = clock.position(tick)?.bar;
    if (bar === undefined) return undefined;
    from = clock.barStart(bar) ?? 0;
    to = clock.barStart(bar + 1) ?? 0;
    return bar;
  };
}
