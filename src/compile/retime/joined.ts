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
import { byArticulation, type DecidedNotes, onsetOf } from '../decide/index.js';
import { overlapOf, speaksAfterOf } from './speaks-after.js';
import { firstStarts, perRow, type RetimedPart, type Ticks } from './state.js';

/**
 * Lengths as the map asks. A joined note is held over the next onset by what its articulation asks for, the last of a
 * joined group is not; a detached note never reaches the next onset of its channel; and an articulation's shortest and
 * longest length are kept to. Where notes start early, so as to be heard in time, the overlap is measured from where
 * the next onset is heard to begin: that is the overlap that sounds.
 */
export function settledEnds(part: RetimedPart, { starts, ends }: Ticks): Float64Array {
  const { decided, options } = part;
  const next = nextStarts(part, starts);
  const lengthened = options.joins ? lengthenedEnds(part, { starts, ends }) : ends;
  return perRow(decided, (row) => {
    const [start, end] = [starts[row] ?? 0, lengthened[row] ?? 0];
    const [onset, played] = [next.onset[row] ?? none, next.playedOnset[row] ?? none];
    const isMoved = start !== noteTick(decided, row) || end !== noteEnd(decided, row) || onset !== played;
    if (!isMoved) return end;
    const isCut = onset !== none && onset < end && wasDetached(decided, row, played);
    return Math.max(start + 1, isCut ? onset : end);
  });
}

/** Releases with what articulations ask for: joined notes held over the next onset, lengths within their bounds. */
function lengthenedEnds(part: RetimedPart, { starts, ends }: Ticks): Float64Array {
  const { line, decided, map } = part;
  const overlap = overlapOf(part);
  const lengthOf = byArticulation(decided, (name) => map.articulations.get(name)?.length ?? anyLength);
  const heard = firstStarts(part, heardStarts(part, starts));
  return perRow(decided, (row) => {
    let end = ends[row] ?? 0;
    const over = overlap(row);
    const nextHeard = heard[onsetOf(decided, row) + 1];
    if (over && nextHeard !== undefined && isJoined(decided.noteOf(row), decided.isKept(row)))
      end = Math.max(end, tickAfter(line.clock, nextHeard, over));
    return withinLength(part, starts[row] ?? 0, end, lengthOf(row));
  });
}

/** Where notes are heard to begin: where they start, or later by what their articulation needs to speak. */
function heardStarts(part: RetimedPart, starts: Float64Array): Float64Array {
  const { line, decided, options } = part;
  if (!options.compensate) return starts;
  const speaksAfter = speaksAfterOf(part);
  return perRow(decided, (row) => tickAfter(line.clock, starts[row] ?? 0, speaksAfter(row)));
}

/** Whether a note was released before its channel's next onset, which it then does not reach. */
function wasDetached(decided: DecidedNotes, row: number, playedNext: number): boolean {
  return noteEnd(decided, row) <= playedNext && !decided.noteOf(row).overlapsNext;
}

/** Bounds of a length, as an articulation has them. */
interface Bounds {
  readonly min?: Duration;
  readonly max?: Duration;
}

const anyLength: Bounds = {};

function withinLength(
  { line: { clock } }: RetimedPart,
  start: number,
  end: number,
  { min, max }: Bounds,
): number {
  if (!min && !max) return end;
  const held = spanBetween(clock, start, end);
  if (min && !isAtLeast(held, min, clock.ticksPerWhole)) return tickAfter(clock, start, min);
  return max && isAtLeast(held, max, clock.ticksPerWhole) ? tickAfter(clock, start, max) : end;
}

/** Where nothing comes next. */
const none = -1;

/** The next onset's first note on the channel of each row, in ticks: now, and as it was played. */
interface Nexts {
  readonly onset: Float64Array;
  readonly playedOnset: Float64Array;
}

/** What comes next for each note, from the end backwards. */
function nextStarts(part: RetimedPart, starts: Float64Array): Nexts {
  const { line, decided, map } = part;
  const channelOf = byArticulation(decided, (name) => channelFor(map, name, line.part.channel));
  const found = { onset: new Float64Array(decided.length), playedOnset: new Float64Array(decided.length) };
  const ahead = new Ahead();
  for (let row = decided.length - 1; row >= 0; row--) {
    const channel = channelOf(row);
    ahead.meet(channel, onsetOf(decided, row), starts[row] ?? 0, noteTick(decided, row));
    found.onset[row] = ahead.next[channel] ?? none;
    found.playedOnset[row] = ahead.playedNext[channel] ?? none;
  }
  return found;
}

/** The onset of each channel that was met last, going backwards, and what comes after it: first notes, in ticks. */
class Ahead {
  readonly next = new Float64Array(16).fill(none);
  readonly playedNext = new Float64Array(16).fill(none);
  readonly #onset = new Float64Array(16).fill(none);
  readonly #first = new Float64Array(16).fill(none);
  readonly #played = new Float64Array(16).fill(none);

  meet(channel: number, onset: number, start: number, played: number): void {
    const isSame = this.#onset[channel] === onset;
    const [first, playedFirst] = [this.#first[channel] ?? none, this.#played[channel] ?? none];
    if (!isSame) {
      this.next[channel] = first;
      this.playedNext[channel] = playedFirst;
    }
    this.#onset[channel] = onset;
    this.#first[channel] = isSame ? Math.min(first, start) : start;
    this.#played[channel] = isSame ? Math.min(playedFirst, played) : played;
  }
}

/** Whether a note reaches the next one; a note that steadiness kept among joined ones does, as good as that. */
function isJoined(note: MeasuredNote, isKept: boolean): boolean {
  return note.overlapsNext || (isKept && note.held.ms >= note.pace.ms / 2);
}
