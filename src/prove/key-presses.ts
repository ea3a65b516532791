import type { Role } from './against/index.js';
import type { HeardNote } from './heard-note.js';
import { isStrike, pairsOf } from './pairs.js';
import type { Stage } from './part.js';

/** A switch key from its strike to its release. */
export interface Press {
  readonly key: number;
  /** 0–15. */
  readonly channel: number;
  readonly tick: number;
  readonly velocity: number;
  /** undefined where it is never released. */
  readonly offTick: number | undefined;
  /** Whether the key was still down when it was struck. */
  readonly isRestruck: boolean;
  /** The latest release of the notes that were struck while it was down, and need it; undefined where none does. */
  readonly neededUntil: number | undefined;
  /** The first note that was struck while it was down, and must sound without it. */
  readonly unwantedBy: HeardNote | undefined;
}

type Growing = { -readonly [K in keyof Press]: Press[K] };

/** Follows the switch keys of a part while it is heard. */
export interface Presses {
  readonly all: readonly Press[];
  /** Releases without a strike: indices in the track. */
  readonly strays: readonly number[];
  /** Passes a strike or a release of a switch key. */
  pass(index: number): void;
  /** Passes a melody note. */
  need(note: HeardNote, needed: ReadonlySet<number>, down: ReadonlySet<number>): void;
}

export function pressesOf({ track, library, channels }: Stage, roleOf?: (index: number) => Role): Presses {
  const { offOf, strays } = pairsOf(
    track,
    ({ channel, noteNumber }, index) =>
      channels.has(channel) && library.keyAspects.has(noteNumber) && roleOf?.(index) !== 'music',
  );
  const presses: Growing[] = [];
  const open = new Map<number, Growing>();
  const released = new Map<number, Growing>();
  const keyOf = (channel: number, key: number) => channel * 128 + key;
  return {
    all: presses,
    strays,
    pass(index) {
      const event = track.events[index];
      const tick = track.ticks[index] ?? 0;
      const ended = released.get(index);
      if (ended && open.get(keyOf(ended.channel, ended.key)) === ended)
        open.delete(keyOf(ended.channel, ended.key));
      if (!event || !isStrike(event) || roleOf?.(index) === 'music') return;
      const { channel, noteNumber: key, velocity } = event;
      const off = offOf.get(index);
      const offTick = off === undefined ? undefined : (track.ticks[off] ?? tick);
      const isRestruck = open.has(keyOf(channel, key));
      const press: Growing = {
        key,
        channel,
        tick,
        velocity,
        offTick,
        isRestruck,
        neededUntil: undefined,
        unwantedBy: undefined,
      };
      presses.push(press);
      open.set(keyOf(channel, key), press);
      if (off !== undefined) released.set(off, press);
    },
    need(note, needed, down) {
      if (note.meant === undefined) return;
      for (const key of needed) {
        const press = open.get(keyOf(note.channel, key));
        if (press) press.neededUntil = Math.max(press.neededUntil ?? 0, note.endTick);
      }
      for (const key of down) {
        const press = needed.has(key) ? undefined : open.get(keyOf(note.channel, key));
        if (press) press.unwantedBy ??= note;
      }
    },
  };
}
