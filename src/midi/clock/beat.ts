import type { Clock } from './clock.js';

/** A bar and a beat in it, both whole, from 1. */
export interface Position {
  readonly bar: number;
  readonly beat: number;
}

/**
 * The bar and the beat that something at a tick belongs to, as a musician tells it: that of the nearest place of
 * sixteenths and triplets, so that a downbeat that was played early is told in its own bar. null where there are no bars.
 */
export function beatAt(clock: Clock, tick: number): Position | null {
  const { ticksPerWhole } = clock;
  const there = clock.position(tick);
  const start = there && clock.barStart(there.bar);
  if (!there || start === null || ticksPerWhole === null) return there;
  const nearest = [ticksPerWhole / 16, ticksPerWhole / 12]
    .map((unit) => start + Math.round((tick - start) / unit) * unit)
    .reduce((one, other) => (Math.abs(other - tick) < Math.abs(one - tick) ? other : one));
  const next = clock.barStart(there.bar + 1);
  if (next !== null && nearest >= next) return { bar: there.bar + 1, beat: 1 };
  return clock.position(Math.ceil(nearest)) ?? there;
}
