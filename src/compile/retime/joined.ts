import { channelFor } from '../../map/index.js';
import { type Duration, isAtLeast, type MeasuredNote, spanBetween, tickAfter } from '../../midi/index.js';
import type { Decision } from '../decide/index.js';
import { bindOverlap, bindSpeaksAfter } from './speaks-after.js';
import { firstStarts, type RetimedPart, type Ticks } from './state.js';

/**
 * Lengths as the map asks. A joined note is held over the next onset by what its articulation asks for, the last of a
 * joined group is not; a detached note never reaches the next onset of its channel; and an articulation's shortest and
 * longest length are kept to. Where notes start early, so as to be heard in time, the overlap is measured from where
 * the next onset is heard to begin: that is the overlap that sounds.
 */
export function settledEnds(part: RetimedPart, { starts, ends }: Ticks): readonly number[] {
  const { line, decisions, map, options } = part;
  const { clock } = line;
  const around = nextStarts(part, starts);
  const overlapOf = bindOverlap(map, line);
  const heard = firstStarts(part, heardStarts(part, starts));
  return decisions.map((decision, index) => {
    const { note, articulation } = decision;
    const start = starts[index] ?? note.tick;
    const next = around[index] ?? {};
    const nextHeard = heard[note.onset + 1];
    const { length } = map.articulations.get(articulation) ?? {};
    let end = ends[index] ?? note.endTick;
    const overlap = options.joins ? overlapOf(decision) : undefined;
    if (overlap && isJoined(decision) && nextHeard !== undefined)
      end = Math.max(end, tickAfter(clock, nextHeard, overlap));
    if (options.joins && length) end = withinLength(part, start, end, length);
    const isMoved = start !== note.tick || end !== note.endTick || next.onset !== next.playedOnset;
    return isMoved ? Math.max(start + 1, heldBack(note, end, next)) : end;
  });
}

/** Where notes are heard to begin: where they start, or later by what their articulation needs to speak. */
function heardStarts(part: RetimedPart, starts: readonly number[]): readonly number[] {
  const { line, decisions, map, options } = part;
  if (!options.compensate || !options.joins) return starts;
  const speaksAfter = bindSpeaksAfter(map, line);
  return decisions.map((decision, index) =>
    tickAfter(line.clock, starts[index] ?? decision.note.tick, speaksAfter(decision)),
  );
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
function nextStarts(part: RetimedPart, starts: readonly number[]): readonly Next[] {
  const { line, decisions, map } = part;
  const found: Next[] = [];
  const ahead = new Map<number, Ahead>();
  for (let index = decisions.length - 1; index >= 0; index--) {
    const decision = decisions[index];
    if (!decision) continue;
    const { note, articulation } = decision;
    const start = starts[index] ?? note.tick;
    const channel = channelFor(map, articulation, line.part.channel);
    const met = meet(ahead.get(channel), note, start);
    ahead.set(channel, met);
    found[index] = met.after;
  }
  return found;
}

function meet(known: Ahead | undefined, note: MeasuredNote, start: number): Ahead {
  const { onset, tick } = note;
  if (!known) return { onset, first: start, played: tick, after: {} };
  if (known.onset !== onset)
    return { onset, first: start, played: tick, after: { onset: known.first, playedOnset: known.played } };
  return { ...known, first: Math.min(known.first, start), played: Math.min(known.played, tick) };
}

/** Whether a note reaches the next one; a note that steadiness kept among joined ones does, as good as that. */
function isJoined({ note, kept }: Decision): boolean {
  return note.overlapsNext || (kept !== undefined && note.held.ms >= note.pace.ms / 2);
}
