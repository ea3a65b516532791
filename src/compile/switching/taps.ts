import { type Clock, type Duration, noteOff, noteOn, releaseVelocity, tickAfter } from '../../midi/index.js';
import { type Insert, ranks } from './insertion.js';
import type { Spot, Spots } from './spots.js';

/** Latching keys: each is tapped, and latches until another of its aspect is. */
export interface Taps {
  strike(key: number, spot: Spot): void;
  /** Ends the taps that are still down. */
  finish(): void;
}

/** A key that was tapped. */
interface Tap {
  on: Spot;
  offTick: number;
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
  /** Of each key the last tap, in the order in which keys were first struck. */
  const down = new Map<number, Tap>();
  const release = (key: number, spot: Spot, rank: number) =>
    insert(spot.before, spot.tick, rank, noteOff(channel, key, releaseVelocity));
  const releaseInTime = (key: number, { on, offTick }: Tap) => {
    if (offTick > on.tick) release(key, spots.atStartOf(offTick), ranks.release);
    else release(key, on, ranks.switch);
  };
  return {
    strike(key, spot) {
      const before = down.get(key);
      if (before && before.offTick > spot.tick) release(key, spot, ranks.switch);
      else if (before) releaseInTime(key, before);
      insert(spot.before, spot.tick, ranks.switch, noteOn(channel, key, velocity));
      const latest = Math.max(spot.tick + 1, tickAfter(clock, spot.tick, tap));
      const offTick = Math.min(latest, spots.last.tick);
      if (!before) down.set(key, { on: spot, offTick });
      else {
        before.on = spot;
        before.offTick = offTick;
      }
    },
    finish() {
      for (const [key, tap] of down) releaseInTime(key, tap);
      down.clear();
    },
  };
}
