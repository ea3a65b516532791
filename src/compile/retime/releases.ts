import { noteEnd, noteTick, offOf, pitchOf } from '../../midi/index.js';
import type { DecidedNotes } from '../decide/index.js';
import type { EventMoves } from './event-moves.js';
import type { Ticks } from './state.js';

/** What is asked of rows here. */
type Rows = Pick<DecidedNotes, 'length' | 'off' | 'tick' | 'endTick' | 'pitch'>;

/**
 * Releases so that each is still its own note's: of one pitch a release ends the earliest open note, so releases keep
 * the order of the strikes, and a note that was released before its key was struck again still is. Only releases of
 * notes that were moved, or that stand beside one that was, change. Ticks, by row.
 */
export function endsInOrder(decided: Rows, { starts, ends }: Ticks): Float64Array {
  const settled = ends.slice();
  cutAtRepeats(decided, starts, settled);
  keepInOrder(decided, starts, settled);
  return settled;
}

/** A note that was released before its key was struck again ends by that strike, and so do those before it. */
function cutAtRepeats(decided: Rows, starts: Float64Array, ends: Float64Array): void {
  // Of each pitch, going backwards: the strike that was met last, and the tick by which those before it end.
  const nexts = new Int32Array(128).fill(-1);
  const limits = new Float64Array(128).fill(Number.POSITIVE_INFINITY);
  for (let row = decided.length - 1; row >= 0; row--) {
    const pitch = pitchOf(decided, row);
    const next = nexts[pitch] ?? -1;
    let limit = limits[pitch] ?? Number.POSITIVE_INFINITY;
    if (next >= 0 && isReleasedBefore(decided, row, next)) limit = Math.min(limit, starts[next] ?? limit);
    ends[row] = Math.min(ends[row] ?? 0, limit);
    nexts[pitch] = row;
    limits[pitch] = limit;
  }
}

/** No release comes before that of an earlier strike of its pitch, and none of a moved note with its own strike. */
function keepInOrder(decided: Rows, starts: Float64Array, ends: Float64Array): void {
  const latest = new Float64Array(128);
  for (let row = 0; row < decided.length; row++) {
    if (offOf(decided, row) < 0) continue;
    const pitch = pitchOf(decided, row);
    const start = starts[row] ?? 0;
    const end = Math.max(ends[row] ?? 0, latest[pitch] ?? 0);
    const hasMoved = start !== noteTick(decided, row) || end !== noteEnd(decided, row);
    ends[row] = hasMoved ? Math.max(end, start + 1) : end;
    latest[pitch] = ends[row] ?? 0;
  }
}

function isReleasedBefore(decided: Rows, row: number, next: number): boolean {
  const struck = noteTick(decided, next);
  return noteEnd(decided, row) <= struck && noteTick(decided, row) < struck;
}

/**
 * Rows whose releases stay on a tick to which another of their pitch is moved: what is moved is put before what stays,
 * and they must keep their order, so that these are to be moved to where they are.
 *
 * @param ends in order (see `endsInOrder`): releases of one pitch on one tick follow each other
 */
export function besideMoved(decided: Rows, { starts, ends }: Ticks, moves: EventMoves): readonly number[] {
  const found: number[] = [];
  // Where the release of each pitch went that was moved last.
  const movedTo = new Float64Array(128).fill(Number.NaN);
  const visit = (row: number) => {
    const [off, pitch, end] = [offOf(decided, row), pitchOf(decided, row), ends[row] ?? 0];
    if (off < 0) return;
    if (moves.has(off)) movedTo[pitch] = end;
    else if (movedTo[pitch] === end && (starts[row] ?? 0) < end) found.push(row);
  };
  for (let row = 0; row < decided.length; row++) visit(row);
  movedTo.fill(Number.NaN);
  for (let row = decided.length - 1; row >= 0; row--) visit(row);
  return found;
}
