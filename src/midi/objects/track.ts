import type { Events } from '../events/index.js';
import { objectsOf } from './decode.js';
import { columnsOf } from './encode.js';
import type { MidiEvent } from './event.js';

/** One MTrk chunk. */
export interface Track {
  /** Counted from 1 in file order. */
  readonly number: number;
  /** The first track name event, decoded (UTF-8, else Latin-1); '' where there is none. */
  readonly name: string;
  /** Its events, in file order. */
  readonly columns: Events;
  /** The same as objects, made when they are first asked for. */
  readonly events: readonly MidiEvent[];
  /** The absolute tick of each of these. */
  readonly ticks: readonly number[];
}

/** A track of columns; its objects are made when they are first asked for. */
export function trackOf(number: number, name: string, columns: Events): Track {
  const events = once(() => objectsOf(columns));
  const ticks = once(() => Array.from(columns.ticks));
  return {
    number,
    name,
    columns,
    get events() {
      return events();
    },
    get ticks() {
      return ticks();
    },
  };
}

/** A track of objects; its columns are made when they are first asked for. */
export function trackOfObjects(
  number: number,
  name: string,
  events: readonly MidiEvent[],
  ticks: readonly number[],
): Track {
  const columns = once(() => columnsOf(events));
  return {
    number,
    name,
    events,
    ticks,
    get columns() {
      return columns();
    },
  };
}

function once<T>(make: () => T): () => T {
  let made: T | undefined;
  return () => {
    made ??= make();
    return made;
  };
}
