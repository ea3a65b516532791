import { type Clock, type Duration, noteOff, noteOn, releaseVelocity, tickAfter } from '../../midi/index.js';
import { type Insert, ranks } from './insertion.js';
import type { Spot, Spots } from './spots.js';

/** Latching keys: each is tapped, and latches until another of its aspect is. */
export interface Taps {
  strike(key: number, spot: Spot): void;
  /** Ends the taps that are still down. */
  finish(): void;
}

/** A tap ends after its length, or earlier where the same key is struck again or the track ends. */
export function latchingTaps(
  spots: Spots,
  clock: Clock,
  channel: number,
  velocity: number,
  tap: Duration,
  insert: Insert,
): Taps {
  const down = new Map<number, { readonly on: Spot; readonly offTick: number }>();
  const release = (key: number, spot: Spot, rank: number) =>
    insert(spot.before, spot.tick, rank, noteOff(channel, key, releaseVelocity));
  const releaseInTime = (key: number, on: Spot, offTick: number) => {
    if (offTick > on.tick) release(key, spots.atStartOf(offTick), ranks.release);
    else release(key, on, ranks.switch);
  };
  return {
    strike(key, spot) {
      const before = down.get(key);
      if (before && before.offTick > spot.tick) release(key, spot, ranks.switch);
      else if (before) releaseInTime(key, before.on, before.offTick);
      insert(spot.before, spot.tick, ranks.switch, noteOn(channel, key, velocity));
      const offTick = Math.max(spot.tick + 1, tickAfter(clock, spot.tick, tap));
      down.set(key, { on: spot, offTick: Math.min(offTick, spots.last.tick) });
    },
    finish() {
      for (const [key, { on, offTick }] of down) releaseInTime(key, on, offTick);
      down.clear();
    },
  };
}
