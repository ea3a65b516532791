import { noteEnd, noteTick, offOf, onOf } from '../../midi/index.js';
import { articulationOf, type DecidedNotes, onsetOf } from '../decide/index.js';

/** Notes of one onset that go out together on one channel, with one articulation. */
export interface Strike {
  readonly articulation: string;
  /** The first note-on: its tick and its index in the track. */
  readonly tick: number;
  readonly onIndex: number;
  /** The latest note-on. */
  readonly lastTick: number;
  /** The latest release, and its index in the track (−1: never released). */
  readonly endTick: number;
  readonly offIndex: number;
  /** Its rows, that of the note that was struck first at the beginning. */
  readonly rows: readonly number[];
}

/**
 * Gathers the rows of one channel into strikes, and hands them over one after another.
 *
 * @param of the rows, in order
 */
export function forEachStrike(
  rows: DecidedNotes,
  of: readonly number[],
  take: (strike: readonly number[]) => void,
): void {
  for (let from = 0, to = 0; from < of.length; from = to) {
    const onset = onsetOf(rows, of[from] ?? 0);
    do to += 1;
    while (to < of.length && onsetOf(rows, of[to] ?? 0) === onset);
    take(of.slice(from, to));
  }
}

/** The strike of some rows; there is at least one. */
export function strikeOf(rows: DecidedNotes, of: readonly number[]): Strike {
  const first = of[0] ?? 0;
  let earliest = first;
  let latest = first;
  let lastTick = noteTick(rows, first);
  for (let at = 1; at < of.length; at++) {
    const row = of[at] ?? first;
    if (onOf(rows, row) < onOf(rows, earliest)) earliest = row;
    if (isLater(offOf(rows, row), offOf(rows, latest))) latest = row;
    lastTick = Math.max(lastTick, noteTick(rows, row));
  }
  return {
    articulation: articulationOf(rows, first),
    tick: noteTick(rows, earliest),
    onIndex: onOf(rows, earliest),
    lastTick,
    endTick: noteEnd(rows, latest),
    offIndex: offOf(rows, latest),
    rows: of,
  };
}

/** Whether one release, by its index, comes after another; a note that is never released (−1) outlasts all. */
export function isLater(off: number, other: number): boolean {
  if (off < 0 || other < 0) return other >= 0;
  return off > other;
}
