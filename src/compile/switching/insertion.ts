import type { MessageEvent } from '../../midi/index.js';

/** At one place: copies of the event before it, then releases of switch keys, then switches. */
export const ranks = { copy: 0, release: 1, switch: 2 } as const;

/** An event to be put into a track, before the event with index `before` (the number of events: at the end). */
export interface Insertion {
  readonly before: number;
  readonly tick: number;
  readonly rank: number;
  /** Its deltaTime is 0 until it is put in. */
  readonly event: MessageEvent;
}

/** Puts an event into a track; what realising leaves behind. */
export type Insert = (before: number, tick: number, rank: number, event: MessageEvent) => void;
