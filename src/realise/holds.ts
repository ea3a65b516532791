import type { Track } from '../model/song.js';
import { type Insert, ranks } from './insertion.js';
import { keyOff, keyOn } from './messages.js';
import { lastSpot, type Spot } from './spots.js';
import { isLater, type Strike } from './strikes.js';

/** Momentary keys: each is held while notes need it. */
export interface Holds {
  /** What is held in a slot. */
  content(slot: string): string | undefined;
  slots(): readonly string[];
  /** Whether the notes that needed a slot's keys still sound at a tick. */
  isNeededAfter(slot: string, tick: number): boolean;
  press(slot: string, content: string, keys: readonly number[], spot: Spot, strike: Strike): void;
  /** Lets the keys of a slot stay down for one more strike. */
  keep(slot: string, strike: Strike): void;
  /** Releases a slot's keys with the last note that needed them, or at `latest` where that comes first. */
  release(slot: string, latest?: Spot): void;
}

interface Hold {
  readonly content: string;
  readonly keys: readonly number[];
  readonly strike: Strike;
}

export function momentaryHolds(track: Track, channel: number, velocity: number, insert: Insert): Holds {
  const held = new Map<string, Hold>();
  const isNeededAfter = (slot: string, tick: number) => {
    const hold = held.get(slot);
    return hold !== undefined && hold.strike.endTick > tick;
  };
  return {
    content: (slot) => held.get(slot)?.content,
    slots: () => [...held.keys()],
    isNeededAfter,
    press(slot, content, keys, spot, strike) {
      for (const key of keys) insert(spot.before, spot.tick, ranks.switch, keyOn(channel, key, velocity));
      held.set(slot, { content, keys, strike });
    },
    keep(slot, strike) {
      const hold = held.get(slot);
      if (hold && isLater(strike, hold.strike)) held.set(slot, { ...hold, strike });
    },
    release(slot, latest) {
      const hold = held.get(slot);
      if (!hold) return;
      const isCut = latest !== undefined && hold.strike.endTick >= latest.tick;
      const spot = isCut ? latest : spotAfterRelease(track, hold.strike);
      const rank = isCut ? ranks.switch : ranks.release;
      for (const key of [...hold.keys].reverse()) insert(spot.before, spot.tick, rank, keyOff(channel, key));
      held.delete(slot);
    },
  };
}

/** Just behind the last note-off of a strike; where there is none, at the end of the track. */
function spotAfterRelease(track: Track, strike: Strike): Spot {
  if (strike.offIndex < 0) return { ...lastSpot(track), tick: strike.endTick };
  return { tick: strike.endTick, before: strike.offIndex + 1 };
}
