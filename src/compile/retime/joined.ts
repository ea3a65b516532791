import { channelFor } from '../../map/index.js';
import { type Duration, isAtLeast, type MeasuredNote, spanBetween, tickAfter } from '../../midi/index.js';
import { bindOverlap } from './speaks-after.js';
import { firstStarts, type RetimedPart, type Ticks } from './state.js';

/**
 * The last word on releases. A joined note is held over the next onset by what its articulation asks for, the last of
 * a joined group is not; a detached note never reaches the next onset of its channel; an articulation's shortest and
 * longest length are kept to; and no key is still down when it is struck again.
 */
export function settledEnds(part: RetimedPart, { starts, ends }: Ticks): readonly number[] {
  const { line, decisions, map, options } = part;
  const { clock } = line;
  const around = nextStarts(part, starts);
  const overlapOf = bindOverlap(map, line);
  return decisions.map((decision, index) => {
    const { note, articulation } = decision;
    const start = starts[index] ?? note.tick;
    const next = around[index] ?? {};
    const { length } = map.articulations.get(articulation) ?? {};
    let end = ends[index] ?? note.endTick;
    const overlap = options.joins ? overlapOf(decision) : undefined;
    if (overlap && note.overlapsNext && next.inLine !== undefined)
      end = Math.max(end, tickAfter(clock, next.inLine, overlap));
    if (options.joins && length) end = withinLength(part, start, end, length);
    const isMoved = start !== note.tick || end !== note.endTick || next.onset !== next.playedOnset;
    return isMoved ? Math.max(start + 1, heldBack(note, end, next)) : end;
  });
}

/** A detached note ends by the next onset, and every note before its key is struck again. */
function heldBack(note: MeasuredNote, end: number, next: Next): number {
  const wasDetached = !note.overlapsNext && note.endTick <= (next.playedOnset ?? -1);
  const byOnset = wasDetached ? (next.onset ?? end) : end;
  return Math.min(end, byOnset, next.pitch ?? end);
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
  /** The next onset's first note on any channel, now. */
  readonly inLine?: number;
  /** The next strike of the same pitch, on any channel, now. */
  readonly pitch?: number;
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
  const first = firstStarts(part, starts);
  const found: Next[] = [];
  const ahead = new Map<number, Ahead>();
  const pitches = new Map<number, { onset: number; start: number; before: number | undefined }>();
  for (let index = decisions.length - 1; index >= 0; index--) {
    const decision = decisions[index];
    if (!decision) continue;
    const { note, articulation } = decision;
    const start = starts[index] ?? note.tick;
    const channel = channelFor(map, articulation, line.part.channel);
    const met = meet(ahead.get(channel), note, start);
    ahead.set(channel, met);
    const same = pitches.get(note.pitch);
    const pitch = same?.onset === note.onset ? same.before : same?.start;
    pitches.set(note.pitch, { onset: note.onset, start, before: pitch });
    const inLine = first[note.onset + 1];
    found[index] = {
      ...met.after,
      ...(pitch === undefined ? {} : { pitch }),
      ...(inLine === undefined ? {} : { inLine }),
    };
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
