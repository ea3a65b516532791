import type { Events } from './events/index.js';

/** One MTrk chunk. */
export interface Track {
  /** Counted from 1 in file order. */
  readonly number: number;
  /** The first track name event, decoded (UTF-8, else Latin-1); '' where there is none. */
  readonly name: string;
  /** Its events, in file order. */
  readonly columns: Events;
}

/** A track of some events. */
export function trackOf(number: number, name: string, columns: Events): Track {
  return { number, name, columns };
}
