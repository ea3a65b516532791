import { channelFor } from '../../map/index.js';
import {
  type Duration,
  isAtLeast,
  type MeasuredNote,
  noteEnd,
  noteTick,
  spanBetween,
  tickAfter,
} from '../../midi/index.js';
import { articulationOf, byArticulation, onsetOf } from '../decide/index.js';
import { overlapOf, speaksAfterOf } from './speaks-after.js';
import { firstStarts, perRow, type RetimedPart, type Ticks } from './state.js';

/**
 * Lengths as the map asks. A joined note is held over the next onset by what its articulation asks for, the last of a
 * joined group is not; a detached note never reaches the next onset of its channel; and an articulation's shortest and
 * longest length are kept to. Where notes start early, so as to be heard in time, the overlap is measured from where
 * the next onset is heard to begin: that is the overlap that sounds.
 */
export function settledEnds(part: RetimedPart, { starts, ends }: Ticks): Float64Array {
  const { line, decided, map, options } = part;
  const { clock } = line;
  const around = nextStarts(part, starts);
  const overlap = overlapOf(part);
  const heard = firstStarts(part, heardStarts(part, starts));
  return perRow(decided, (row) => {
    const [articulation, note] = [articulationOf(decided, row), decided.noteOf(row)];
    let end = ends[row] ?? 0;
    const start = starts[row] ?? 0;
    const next = around[row] ?? {};
    const nextHeard = heard[onsetOf(decided, row) + 1];
    const { length } = map.articulations.get(articulation) ?? {};
    const over = options.joins ? overlap(row) : undefined;
    if (over && nextHeard !== undefined && isJoined(note, decided.isKept(row)))
      end = Math.max(end, tickAfter(clock, nextHeard, over));
    if (options.joins && length) end = withinLength(part, start, end, length);
    const isMoved =
      start !== noteTick(decided, row) || end !== noteEnd(decided, row) || next.onset !== next.playedOnset;
    return isMoved ? Math.max(start + 1, heldBack(note, end, next)) : end;
  });
}

/** Where notes are heard to begin: where they start, or later by what their articulation needs to speak. */
function heardStarts(part: RetimedPart, starts: Float64Array): Float64Array {
  const { line, decided, options } = part;
  if (!options.compensate || !options.joins) return starts;
  const speaksAfter = speaksAfterOf(part);
  return perRow(decided, (row) => tickAfter(line.clock, starts[row] ?? 0, speaksAfter(row)));
}

/** A detached note ends by the next onset. */
function heldBack(note: MeasuredNote, end: number, next: Next): number {
  const wasDetached = !note.overlapsNext && note.endTick <= (next.playedOnset ?? -1);
  return wasDetached ? Math.min(end, next.onset ?? end) : end;
}

function withinLength(
  { line: { clock } }: RetimedPart,
  start: number,
  end: number,
  { min, max }: { readonly min?: Duration; readonly max?: Duration },
): number {
  const held = spanBetween(clock, start, end);
  if (min && !isAtLeast(held, min, clock.ticksPerWhole)) return tickAfter(clock, start, min);
  return max && isAtLeast(held, max, clock.ticksPerWhole) ? tickAfter(clock, start, max) : end;
}

interface Next {
  /** The next onset's first note on the channel: now, and as it was played. */
  readonly onset?: number;
  readonly playedOnset?: number;
}

/** The last onset that was met on a channel, going backwards, and what comes after it. */
interface Ahead {
  readonly onset: number;
  readonly first: number;
  readonly played: number;
  readonly after: Next;
}

/** What comes next for each note, from the end backwards. */
function nextStarts(part: RetimedPart, starts: Float64Array): readonly Next[] {
  const { line, decided, map } = part;
  const channelOf = byArticulation(decided, (name) => channelFor(map, name, line.part.channel));
  const found: Next[] = new Array<Next>(decided.length).fill(nothing);
  const ahead: Ahead[] = [];
  for (let row = decided.length - 1; row >= 0; row--) {
    const channel = channelOf(row);
    const met = meet(ahead[channel], onsetOf(decided, row), noteTick(decided, row), starts[row] ?? 0);
    ahead[channel] = met;
    found[row] = met.after;
  }
  return found;
}

const nothing: Next = {};

function meet(known: Ahead | undefined, onset: number, played: number, start: number): Ahead {
  if (!known) return { onset, first: start, played, after: nothing };
  if (known.onset !== onset)
    return { onset, first: start, played, after: { onset: known.first, playedOnset: known.played } };
  const { after } = known;
  return { onset, first: Math.min(known.first, start), played: Math.min(known.played, played), after };
}

/** Whether a note reaches the next one; a note that steadiness kept among joined ones does, as good as that. */
function isJoined(note: MeasuredNote, isKept: boolean): boolean {
  return note.overlapsNext || (isKept && note.held.ms >= note.pace.ms / 2);
}
