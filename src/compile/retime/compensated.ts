import { type Diagnostic, diagnostic } from '../../diagnostics/index.js';
import { channelFor } from '../../map/index.js';
import { indicesInOrder, musicPlace, noteTick, picked, tickAfter } from '../../midi/index.js';
import { type ClampReason, type Compensated, compensate, prerollBars } from '../../timing/index.js';
import { byArticulation, onsetOf } from '../decide/index.js';
import { speaksAfterOf } from './speaks-after.js';
import type { RetimedPart, Ticks } from './state.js';

/** Starts each note earlier by the time that its articulation needs to speak, if the part asks for it. */
export function spokenTicks(
  part: RetimedPart,
  { starts, ends }: Ticks,
): { readonly ticks: Ticks; readonly diagnostics: readonly Diagnostic[] } {
  const { line, decided, options } = part;
  if (!options.compensate) return { ticks: { starts, ends }, diagnostics: [] };
  const speaksAfter = speaksAfterOf(part);
  const order = inOrderOfStarts(part, starts);
  const onset = picked(starts, order);
  const notes = {
    length: order.length,
    onset,
    release: picked(ends, order),
    pitch: picked(decided.pitch, order),
    channel: picked(channels(part), order),
    heardAt: heardAt(part, order, onset),
    struck: picked(decided.onset, order),
    speaksAfter: (at: number) => speaksAfter(order[at] ?? 0),
  };
  const compensated = compensate(notes, line.clock);
  const { onsets, releases } = compensated;
  const newStarts = starts.slice();
  const newEnds = ends.slice();
  order.forEach((index, at) => {
    newStarts[index] = onsets[at] ?? newStarts[index] ?? 0;
    newEnds[index] = Math.max(releases[at] ?? 0, (onsets[at] ?? 0) + 1);
    if (newStarts[index] === starts[index]) newEnds[index] = releases[at] ?? newEnds[index] ?? 0;
  });
  const late = clampWarnings(part, order, compensated, () => prerollBars(notes, line.clock));
  return { ticks: { starts: newStarts, ends: newEnds }, diagnostics: late };
}

/** The channel on which each note goes out, by row. */
function channels({ decided, map, line }: RetimedPart): Uint8Array {
  const channelOf = byArticulation(decided, (name) => channelFor(map, name, line.part.channel));
  return new Uint8Array(decided.length).map((_, row) => channelOf(row));
}

/** The tick at which each note is to be heard, in an order of rows: where it starts, or as long after it as is asked. */
function heardAt(
  { line, decided, heardAfter }: RetimedPart,
  order: Uint32Array,
  onset: Float64Array,
): Float64Array {
  if (!heardAfter) return onset;
  return onset.map((tick, at) => tickAfter(line.clock, tick, heardAfter(decided.noteOf(order[at] ?? 0))));
}

/** The rows of each onset by their starts. */
function inOrderOfStarts({ decided }: RetimedPart, starts: Float64Array): Uint32Array {
  return indicesInOrder(decided.length, (one, other) => {
    const [onset, others] = [onsetOf(decided, one), onsetOf(decided, other)];
    return onset < others || (onset === others && (starts[one] ?? 0) < (starts[other] ?? 0));
  });
}

const reasons = {
  'file-start': 'before the file begins',
  'note-before': 'before the note ahead of it',
  'same-pitch': 'before the same key is free',
} as const;

/** Notes that start late for one reason: the first of them, how many they are, and the most that one of them is late. */
interface Clamped {
  readonly first: number;
  count: number;
  mostMs: number;
}

function clampedOf(
  { onsets, wantedMs, clampOf }: Compensated,
  { clock }: RetimedPart['line'],
): ReadonlyMap<ClampReason, Clamped> {
  const found = new Map<ClampReason, Clamped>();
  for (let note = 0; note < onsets.length; note++) {
    const reason = clampOf(note);
    if (!reason) continue;
    const of = found.get(reason) ?? { first: note, count: 0, mostMs: 0 };
    of.count += 1;
    of.mostMs = Math.max(of.mostMs, clock.ms(onsets[note] ?? 0) - (wantedMs[note] ?? 0));
    found.set(reason, of);
  }
  return found;
}

/**
 * starts-late: notes that cannot start as early as they should, a warning for each reason.
 *
 * @param barsMissing how many bars would have to be put before the music
 */
function clampWarnings(
  { line, decided }: RetimedPart,
  order: Uint32Array,
  compensated: Compensated,
  barsMissing: () => number | null,
): readonly Diagnostic[] {
  return Array.from(clampedOf(compensated, line), ([reason, { first, count, mostMs }]) => {
    return diagnostic(
      'starts-late',
      musicPlace(line, noteTick(decided, order[first] ?? 0)),
      `${count === 1 ? 'a note' : `${count} notes, this one first,`} would have to start ${reasons[reason]}: heard late by up to ${Math.round(mostMs)} ms`,
      reason === 'file-start'
        ? prerollHint(barsMissing())
        : 'its sample speaks more slowly than the music moves; a quicker articulation would be heard in time',
    );
  });
}

function prerollHint(bars: number | null): string {
  return bars === null || bars === 0 ? 'leave room before the first note' : `--preroll ${bars} gives it room`;
}
