import { noteEnd, noteTick, offOf, pitchOf } from '../../midi/index.js';
import type { DecidedNotes } from '../decide/index.js';
import type { EventMoves } from './event-moves.js';
import type { RetimedPart, Ticks } from './state.js';

/**
 * Releases so that each is still its own note's: of one pitch a release ends the earliest open note, so releases keep
 * the order of the strikes, and a note that was released before its key was struck again still is. Only releases of
 * notes that were moved, or that stand beside one that was, change. Ticks, by row.
 */
export function endsInOrder({ decided }: RetimedPart, { starts, ends }: Ticks): Float64Array {
  const settled = ends.slice();
  for (const strikes of byPitch(decided)) {
    cutAtRepeats(decided, strikes, starts, settled);
    keepInOrder(decided, strikes, starts, settled);
  }
  return settled;
}

/** A note that was released before its key was struck again ends by that strike, and so do those before it. */
function cutAtRepeats(
  decided: DecidedNotes,
  strikes: readonly number[],
  starts: Float64Array,
  ends: Float64Array,
): void {
  let limit = Number.POSITIVE_INFINITY;
  for (let at = strikes.length - 1; at >= 0; at--) {
    const [row, next] = [strikes[at] ?? 0, strikes[at + 1]];
    if (next !== undefined && isReleasedBefore(decided, row, next))
      limit = Math.min(limit, starts[next] ?? limit);
    ends[row] = Math.min(ends[row] ?? 0, limit);
  }
}

/** No release comes before that of an earlier strike, and none of a moved note with its own strike. */
function keepInOrder(
  decided: DecidedNotes,
  strikes: readonly number[],
  starts: Float64Array,
  ends: Float64Array,
): void {
  let latest = 0;
  for (const row of strikes) {
    if (offOf(decided, row) < 0) continue;
    const start = starts[row] ?? 0;
    const end = Math.max(ends[row] ?? 0, latest);
    const hasMoved = start !== noteTick(decided, row) || end !== noteEnd(decided, row);
    latest = hasMoved ? Math.max(end, start + 1) : end;
    ends[row] = latest;
  }
}

function isReleasedBefore(decided: DecidedNotes, row: number, next: number): boolean {
  const struck = noteTick(decided, next);
  return noteEnd(decided, row) <= struck && noteTick(decided, row) < struck;
}

/** The strikes of each pitch in order: their rows. */
function byPitch(decided: DecidedNotes): readonly (readonly number[])[] {
  const pitches = Array.from({ length: 128 }, (): number[] => []);
  for (let row = 0; row < decided.length; row++) pitches[pitchOf(decided, row)]?.push(row);
  return pitches;
}

/**
 * Releases that stay on a tick to which another of their pitch is moved, with that tick, by index in the track: what is
 * moved is put before what stays, and they must keep their order.
 */
export function besideMoved(
  decided: DecidedNotes,
  { starts, ends }: Ticks,
  moves: EventMoves,
): ReadonlyMap<number, number> {
  const placeOf = (row: number) => (ends[row] ?? 0) * 128 + pitchOf(decided, row);
  const movedTo = new Set<number>();
  for (let row = 0; row < decided.length; row++)
    if (moves.has(offOf(decided, row))) movedTo.add(placeOf(row));
  const found = new Map<number, number>();
  for (let row = 0; row < decided.length; row++) {
    const [off, end] = [offOf(decided, row), ends[row] ?? 0];
    // Those that are moved have their ticks already.
    if (off < 0 || moves.has(off) || (starts[row] ?? 0) >= end) continue;
    if (movedTo.has(placeOf(row))) found.set(off, end);
  }
  return found;
}
