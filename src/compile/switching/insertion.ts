import type { Message } from '../../midi/index.js';

/** At one place: copies of the event before it, then releases of switch keys, then switches. */
export const ranks = { copy: 0, release: 1, switch: 2 } as const;

/**
 * Puts a message into a track, before the event with index `before` (the number of events: at the end); what realising
 * leaves behind.
 */
export type Insert = (before: number, tick: number, rank: number, message: Message) => void;
