import { noteOff, noteOn, releaseVelocity } from '../../midi/index.js';
import { type Insert, ranks } from './insertion.js';
import type { Spot, Spots } from './spots.js';
import { isLater, type Strike } from './strikes.js';

/** Momentary keys: each is held while notes need it. */
export interface Holds {
  /** What is held in an aspect. */
  content(aspect: string): number | undefined;
  aspects(): readonly string[];
  isHolding(): boolean;
  /** Whether the notes that needed an aspect's key still sound at a tick. */
  isNeededAfter(aspect: string, tick: number): boolean;
  press(aspect: string, content: number, key: number, spot: Spot, strike: Strike): void;
  /** Lets the key of an aspect stay down for one more strike. */
  keep(aspect: string, strike: Strike): void;
  /** Releases an aspect's key with the last note that needed them, or at `latest` where that comes first. */
  release(aspect: string, latest?: Spot): void;
}

interface Hold {
  readonly content: number;
  readonly key: number;
  readonly strike: Strike;
}

export function momentaryHolds(spots: Spots, channel: number, velocity: number, insert: Insert): Holds {
  const held = new Map<string, Hold>();
  const isNeededAfter = (aspect: string, tick: number) => {
    const hold = held.get(aspect);
    return hold !== undefined && hold.strike.endTick > tick;
  };
  return {
    content: (aspect) => held.get(aspect)?.content,
    aspects: () => [...held.keys()],
    isHolding: () => held.size > 0,
    isNeededAfter,
    press(aspect, content, key, spot, strike) {
      insert(spot.before, spot.tick, ranks.switch, noteOn(channel, key, velocity));
      held.set(aspect, { content, key, strike });
    },
    keep(aspect, strike) {
      const hold = held.get(aspect);
      if (hold && isLater(strike.offIndex, hold.strike.offIndex)) held.set(aspect, { ...hold, strike });
    },
    release(aspect, latest) {
      const hold = held.get(aspect);
      if (!hold) return;
      const isCut = latest !== undefined && hold.strike.endTick >= latest.tick;
      const spot = isCut ? latest : spotAfterRelease(spots, hold.strike);
      const rank = isCut ? ranks.switch : ranks.release;
      insert(spot.before, spot.tick, rank, noteOff(channel, hold.key, releaseVelocity));
      held.delete(aspect);
    },
  };
}

/** Just behind the last note-off of a strike; where there is none, at the end of the track. */
function spotAfterRelease({ last }: Spots, strike: Strike): Spot {
  if (strike.offIndex < 0) return { ...last, tick: strike.endTick };
  return { tick: strike.endTick, before: strike.offIndex + 1 };
}
