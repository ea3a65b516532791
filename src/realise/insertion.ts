import type { MidiEvent } from '../model/song.js';

type WithoutDelta<E> = E extends unknown ? Omit<E, 'deltaTime'> : never;

/** An event that has no place in time yet. */
export type FreeEvent = WithoutDelta<MidiEvent>;

/** At one place: copies of the event before it, then releases of switch keys, then switches. */
export const ranks = { copy: 0, release: 1, switch: 2 } as const;

/** An event to be put into a track, before the event with index `before` (the number of events: at the end). */
export interface Insertion {
  readonly before: number;
  readonly tick: number;
  readonly rank: number;
  readonly event: FreeEvent;
}
