import type { Clock } from '../clock/index.js';
import type { Duration } from '../duration.js';
import { msBetween, roundedMs } from '../span.js';
import { type Notes, noteTick, pitchOf } from './notes.js';

/** What was struck together, in columns: onset `i` has the notes from `first[i]` to before `first[i + 1]`. */
export interface Onsets {
  readonly length: number;
  /** One more than there are onsets. */
  readonly first: Uint32Array;
  /** The note of highest pitch; of several the first. */
  readonly top: Uint32Array;
}

/** The first note of an onset; of the number of onsets, how many notes there are. */
export function firstNote({ first }: Onsets, onset: number): number {
  return first[onset] ?? 0;
}

export function topNote({ top }: Onsets, onset: number): number {
  return top[onset] ?? 0;
}

/**
 * Groups notes that were struck together. A note joins the onset that is open while it lies no further than
 * `window` after that onset's first note, so that a fast run never grows into one chord.
 */
export function onsetsOf(notes: Notes, clock: Clock, window: Duration): Onsets {
  const first = new Uint32Array(notes.length + 1);
  const top = new Uint32Array(notes.length);
  const joins = joiner(clock, window);
  let length = 0;
  for (let note = 0; note < notes.length; note++) {
    const tick = noteTick(notes, note);
    if (joins(tick)) {
      const open = length - 1;
      if (pitchOf(notes, note) > pitchOf(notes, top[open] ?? 0)) top[open] = note;
      continue;
    }
    first[length] = note;
    top[length] = note;
    length += 1;
  }
  first[length] = notes.length;
  return { length, first: first.slice(0, length + 1), top: top.slice(0, length) };
}

/** Whether a note at a tick joins the onset that is open; where it does not, it opens the next. */
function joiner(clock: Clock, window: Duration): (tick: number) => boolean {
  let begin = Number.NaN;
  let beginMs = Number.NaN;
  const isNear = (tick: number, ms: number) =>
    window.unit === 'ms' ? roundedMs(beginMs, ms) <= window.ms : isWithin(clock, begin, tick, window);
  return (tick) => {
    if (tick === begin) return true;
    const ms = window.unit === 'ms' ? clock.ms(tick) : 0;
    if (isNear(tick, ms)) return true;
    begin = tick;
    beginMs = ms;
    return false;
  };
}

/** TO BE DELETED when the last stage reads columns: the same for notes that are objects. */
export function groupOnsets<N extends { readonly tick: number }>(
  notes: readonly N[],
  clock: Clock,
  window: Duration,
): readonly (readonly N[])[] {
  const groups: N[][] = [];
  let open: N[] = [];
  for (const note of notes) {
    const first = open[0];
    if (first && isWithin(clock, first.tick, note.tick, window)) open.push(note);
    else {
      open = [note];
      groups.push(open);
    }
  }
  return groups;
}

function isWithin(clock: Clock, from: number, to: number, window: Duration): boolean {
  if (from === to) return true;
  if (window.unit === 'ms') return msBetween(clock, from, to) <= window.ms;
  return (
    clock.ticksPerWhole !== null && (to - from) * window.denominator <= window.numerator * clock.ticksPerWhole
  );
}
