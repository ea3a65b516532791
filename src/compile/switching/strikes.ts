import { noteEnd, noteTick, offOf, onOf } from '../../midi/index.js';
import type { DecidedNotes } from '../decide/index.js';
import type { ForeignWrite } from './foreign.js';

/** The strikes of one channel, in columns: strike `i` has the rows from `first[i]` to before `first[i + 1]`. */
export interface Strikes {
  readonly length: number;
  readonly rows: Uint32Array;
  /** One more than there are strikes. */
  readonly first: Uint32Array;
}

/** Notes of one onset that go out together on one channel, with one articulation. */
export interface Strike {
  /** The first of its rows, and the number of their articulation. */
  readonly row: number;
  readonly articulation: number;
  /** The first note-on: its tick and its index in the track. */
  readonly tick: number;
  readonly onIndex: number;
  /** The latest note-on. */
  readonly lastTick: number;
  /** The latest release, and its index in the track (−1: never released). */
  readonly endTick: number;
  readonly offIndex: number;
}

/**
 * Gathers the rows of one channel into strikes. Those between whose notes the input writes to an aspect of the map (some
 * files change the program for each note of a chord) are parted there, so that the switch can be sent again in between.
 *
 * @param rows of that channel, in order; where the input writes there, those of a chord are put in the order of the file
 * @param foreign what the input writes on that channel, in order
 */
export function strikesOf(
  decided: DecidedNotes,
  rows: Uint32Array,
  foreign: readonly ForeignWrite[],
): Strikes {
  const { onset } = decided;
  const isBehindWrite = behindWrites(decided, foreign);
  const first = new Uint32Array(rows.length + 1);
  let length = 0;
  for (let from = 0, to = 0; from < rows.length; from = to) {
    const struck = onset[rows[from] ?? 0];
    do to += 1;
    while (to < rows.length && onset[rows[to] ?? 0] === struck);
    first[length++] = from;
    if (foreign.length === 0) continue;
    rows.subarray(from, to).sort((a, b) => onOf(decided, a) - onOf(decided, b));
    for (let at = from; at < to; at++) if (isBehindWrite(rows[at] ?? 0) && at > from) first[length++] = at;
  }
  first[length] = rows.length;
  return { length, rows, first: first.subarray(0, length + 1) };
}

/** Whether the input writes to an aspect between the row that was asked for before and this one. */
function behindWrites(decided: DecidedNotes, foreign: readonly ForeignWrite[]): (row: number) => boolean {
  let next = 0;
  return (row) => {
    const before = next;
    while (next < foreign.length && (foreign[next]?.index ?? 0) < onOf(decided, row)) next += 1;
    return next > before;
  };
}

export function strikeAt(decided: DecidedNotes, { rows, first }: Strikes, strike: number): Strike {
  const from = first[strike] ?? 0;
  const to = first[strike + 1] ?? 0;
  const row = rows[from] ?? 0;
  let earliest = row;
  let latest = row;
  let lastTick = noteTick(decided, row);
  for (let at = from + 1; at < to; at++) {
    const other = rows[at] ?? 0;
    if (onOf(decided, other) < onOf(decided, earliest)) earliest = other;
    if (isLater(offOf(decided, other), offOf(decided, latest))) latest = other;
    lastTick = Math.max(lastTick, noteTick(decided, other));
  }
  return {
    row,
    articulation: decided.articulation[row] ?? 0,
    tick: noteTick(decided, earliest),
    onIndex: onOf(decided, earliest),
    lastTick,
    endTick: noteEnd(decided, latest),
    offIndex: offOf(decided, latest),
  };
}

/** Whether one release, by its index, comes after another; a note that is never released (−1) outlasts all. */
export function isLater(off: number, other: number): boolean {
  if (off < 0 || other < 0) return other >= 0;
  return off > other;
}
