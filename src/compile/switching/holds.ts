import type { Track } from '../../midi/index.js';
import { type Insert, ranks } from './insertion.js';
import { keyEvents } from './keys.js';
import { lastSpot, type Spot } from './spots.js';
import { isLater, type Strike } from './strikes.js';

/** Momentary keys: each is held while notes need it. */
export interface Holds {
  /** What is held in a slot. */
  content(slot: string): string | undefined;
  slots(): readonly string[];
  /** Whether the notes that needed a slot's key still sound at a tick. */
  isNeededAfter(slot: string, tick: number): boolean;
  press(slot: string, content: string, key: number, spot: Spot, strike: Strike): void;
  /** Lets the key of a slot stay down for one more strike. */
  keep(slot: string, strike: Strike): void;
  /** Releases a slot's key with the last note that needed them, or at `latest` where that comes first. */
  release(slot: string, latest?: Spot): void;
}

interface Hold {
  readonly content: string;
  readonly key: number;
  readonly strike: Strike;
}

export function momentaryHolds(track: Track, channel: number, velocity: number, insert: Insert): Holds {
  const held = new Map<string, Hold>();
  const keys = keyEvents(channel, velocity);
  const isNeededAfter = (slot: string, tick: number) => {
    const hold = held.get(slot);
    return hold !== undefined && hold.strike.endTick > tick;
  };
  return {
    content: (slot) => held.get(slot)?.content,
    slots: () => [...held.keys()],
    isNeededAfter,
    press(slot, content, key, spot, strike) {
      insert(spot.before, spot.tick, ranks.switch, keys.on(key));
      held.set(slot, { content, key, strike });
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
      insert(spot.before, spot.tick, rank, keys.off(hold.key));
      held.delete(slot);
    },
  };
}

/** Just behind the last note-off of a strike; where there is none, at the end of the track. */
function spotAfterRelease(track: Track, strike: Strike): Spot {
  if (strike.offIndex < 0) return { ...lastSpot(track), tick: strike.endTick };
  return { tick: strike.endTick, before: strike.offIndex + 1 };
}
