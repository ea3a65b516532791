import type { Swing } from '../model.js';
import type { PlayedBar } from './performance.js';
import type { Unfolded } from './timeline.js';

/**
 * Where a place in a bar is played under a swing: of each pair of the swinging note the first takes first ÷ (first +
 * second) of the pair, and what lies between moves along. Places off the pair's grid of quarters (triplets) stay.
 */
export function swung(offset: number, { first, second, unit }: Swing): number {
  const pair = 2 * unit;
  const start = Math.floor(offset / pair) * pair;
  const place = offset - start;
  if (first === second || (4 * place) % pair !== 0) return offset;
  const long = (pair * first) / (first + second);
  const moved = place <= unit ? (place * long) / unit : long + ((place - unit) * (pair - long)) / unit;
  return start + Math.round(moved);
}

/** Moves a tick of a bar by the swing in force there. */
export type Swinger = (tick: number, bar: PlayedBar) => number;

export function swinger(swings: readonly Unfolded<Swing>[]): Swinger {
  if (swings.length === 0) return (tick) => tick;
  return (tick, bar) => {
    const swing = swings.findLast((one) => one.tick <= tick);
    return swing ? bar.tick + swung(tick - bar.tick, swing.item) : tick;
  };
}
