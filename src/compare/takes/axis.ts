import type { Clock } from '../../midi/index.js';

/** Where ticks of the second take stand in the first; NaN where the first has nothing there. Unit: ticks of the first. */
export type Axis = (tick: number) => number;

/** The bar of the first take that a bar of the second one is; null where the first has none such. */
export type SameBar = (bar: number) => number | null;

/**
 * How one take is laid over the other: from the beginning on by ticks, or bar by bar, so that a bar that became longer
 * moves nothing behind it. Where one of them has no bars, it is done by real time in both cases.
 */
export type AxisKind = 'ticks' | SameBar;

/** One take laid over the other. */
export interface Overlay {
  readonly place: Axis;
  /** How far apart two notes of a pitch may stand and still be one that was moved. Unit: ticks of the first take. */
  readonly most: number;
}

/** Lays the second take over the first. Notes are moved by a thirty-second at most, or by 60 ms. */
export function axisOf(first: Clock, second: Clock, by: AxisKind): Overlay {
  const [whole, other] = [first.ticksPerWhole, second.ticksPerWhole];
  if (whole === null || other === null)
    return { place: (tick) => first.tickAt(second.ms(tick)), most: first.tickAt(60) };
  const scaled = (ticks: number) => (ticks * whole) / other;
  const most = whole / 32;
  if (by === 'ticks') return { place: scaled, most };
  return {
    place: (tick) => {
      const bar = second.position(tick)?.bar ?? 1;
      const same = by(bar);
      if (same === null) return Number.NaN;
      return (first.barStart(same) ?? 0) + scaled(tick - (second.barStart(bar) ?? 0));
    },
    most,
  };
}
