import { noteTick, pitchOf } from '../../midi/index.js';
import { isExact, loosen, type NoteKey, occurrences, roll, shareOfRoom } from '../../timing/index.js';
import { Held, type Step } from './held-back.js';
import { firstStarts, lastStarts, onsetRows, type RetimedPart } from './state.js';

/**
 * Chance for each of some notes of an onset, which depends on the note alone: its part, its pitch, where it was played,
 * and which of several alike it is. Those that are alike are of one onset.
 *
 * @param rows from the onset's first on
 */
function keysOf({ line, decided, options }: RetimedPart, rows: readonly number[]): readonly NoteKey[] {
  const notes = rows.map((row) => ({ tick: noteTick(decided, row), pitch: pitchOf(decided, row) }));
  const counts = occurrences(notes);
  const part = `${line.part.trackName} ${line.part.channel}`;
  return notes.map(({ tick, pitch }, at) => {
    return { seed: options.seed, part, pitch, position: tick, occurrence: counts[at] ?? 0 };
  });
}

/** The shares of the room to a neighbouring onset that a rolled chord and a loosened note may use. */
const rollShare = 0.45;
const loosenShare = 0.4;

/** Chords spread as by several players: new ticks, by row. Where there is no room, a spread is made narrower. */
export function rolledStarts(part: RetimedPart, starts: Float64Array): Step {
  const { roll: option } = part.options;
  if (!option) return { starts, held: new Held() };
  const { clock } = part.line;
  const moved = starts.slice();
  const held = new Held();
  const room = roomAround(part, starts, rollShare);
  const rows = onsetRows(part);
  for (let onset = 0; onset < rows.length; onset++) {
    // A single note is no chord, and stays.
    const from = rows.from(onset);
    if (rows.to(onset) - from < 2) continue;
    const keys = keysOf(part, rows.of(onset));
    const chord = rows.of(onset).sort((a, b) => (starts[a] ?? 0) - (starts[b] ?? 0) || a - b);
    const offsets = roll(
      chord.flatMap((index) => keys[index - from] ?? []),
      option,
    );
    const now = chord.map((index) => starts[index] ?? 0);
    const shifts = now.map((tick, at) => clock.tickAt(clock.ms(tick) + (offsets[at] ?? 0)) - tick);
    const share = fittingShare(now, shifts, room(onset));
    const pitches = chord.map((index) => pitchOf(part.decided, index));
    const rolled = inOrder(now, pitches, shifts, share, room(onset));
    chord.forEach((index, at) => {
      moved[index] = rolled[at] ?? moved[index] ?? 0;
    });
    const most = offsets.reduce((largest, offset) => Math.max(largest, Math.abs(offset)), 0);
    if (share < 1) held.add(onset, (1 - share) * most);
  }
  return { starts: moved, held };
}

/** How much of its shifts a chord can take without leaving its room. */
function fittingShare(now: readonly number[], shifts: readonly number[], { from, to }: Room): number {
  return now.reduce((share, tick, at) => {
    const shift = shifts[at] ?? 0;
    if (shift === 0) return share;
    return Math.min(share, shift < 0 ? (from - tick) / shift : (to - tick) / shift);
  }, 1);
}

/** The ticks of a chord's notes after a share of their shifts; those of one pitch stay apart and in order. */
function inOrder(
  now: readonly number[],
  pitches: readonly number[],
  shifts: readonly number[],
  share: number,
  { to }: Room,
): readonly number[] {
  const moved = now.map((tick, at) => tick + Math.round(share * (shifts[at] ?? 0)));
  const gap = (earlier: number, later: number) => ((now[later] ?? 0) > (now[earlier] ?? 0) ? 1 : 0);
  const before = (at: number) => pitches.lastIndexOf(pitches[at] ?? 0, at - 1);
  for (let at = 1; at < moved.length; at += 1) {
    const earlier = before(at);
    if (earlier >= 0) moved[at] = Math.max(moved[at] ?? 0, (moved[earlier] ?? 0) + gap(earlier, at));
  }
  for (let at = moved.length - 1; at > 0; at -= 1) {
    moved[at] = Math.min(moved[at] ?? 0, to);
    const earlier = before(at);
    if (earlier >= 0) moved[earlier] = Math.min(moved[earlier] ?? 0, (moved[at] ?? 0) - gap(earlier, at));
  }
  return moved;
}

/** Single notes moved off a grid that they keep to too exactly: new ticks, by row. */
export function loosenedStarts(part: RetimedPart, starts: Float64Array): Step {
  const { loosenMs } = part.options;
  const { clock } = part.line;
  if (!loosenMs) return { starts, held: new Held() };
  const rows = onsetRows(part);
  const [first, last] = [firstStarts(part, starts), lastStarts(part, starts)];
  const loose = Array.from(first).flatMap((_, onset) => {
    const index = rows.from(onset);
    const length = rows.to(onset) - index;
    const [key] = keysOf(part, [index]);
    if (length === 0 || !key) return [];
    const tick = first[onset] ?? 0;
    return [
      {
        index,
        onset,
        key,
        ms: clock.ms(tick),
        lastMs: clock.ms(last[onset] ?? tick),
        barEndMs: barEnd(part, tick),
        exact: length === 1 && isOnGrid(part, tick),
      },
    ];
  });
  const room = roomAround(part, starts, loosenShare);
  const offsets = loosen(loose, loosenMs);
  const moved = starts.slice();
  const held = new Held();
  loose.forEach(({ index, onset, ms }, at) => {
    const offset = offsets[at] ?? 0;
    if (offset === 0) return;
    const wanted = clock.tickAt(ms + offset);
    const { from, to } = room(onset);
    const tick = Math.max(from, Math.min(to, wanted));
    moved[index] = tick;
    if (tick !== wanted) held.add(onset, Math.abs(clock.ms(wanted) - clock.ms(tick)));
  });
  return { starts: moved, held };
}

/** The ticks within which an onset's notes may be moved, both inclusive. */
interface Room {
  readonly from: number;
  readonly to: number;
}

/** The room around each onset, so that two neighbours that both move stay apart. */
function roomAround(part: RetimedPart, starts: Float64Array, share: number): (onset: number) => Room {
  let sides: readonly [Float64Array, Float64Array] | undefined;
  return (onset) => {
    // Music without chords asks for none.
    sides ??= [firstStarts(part, starts), lastStarts(part, starts)];
    const [first, last] = sides;
    const [begin, end] = [first[onset] ?? 0, last[onset] ?? 0];
    const [before, after] = [last[onset - 1], first[onset + 1]];
    return {
      from: before === undefined ? 0 : begin - shareOfRoom(begin - before, share),
      to: after === undefined ? Number.POSITIVE_INFINITY : end + shareOfRoom(after - end, share),
    };
  };
}

/** An onset a tick ahead of a barline belongs to the next bar. */
function barOf({ line }: RetimedPart, tick: number): number | undefined {
  return line.clock.position(tick + 1)?.bar;
}

function barEnd(part: RetimedPart, tick: number): number {
  const bar = barOf(part, tick);
  const end = bar === undefined ? null : part.line.clock.barStart(bar + 1);
  return end === null ? Number.POSITIVE_INFINITY : part.line.clock.ms(end);
}

function isOnGrid(part: RetimedPart, tick: number): boolean {
  const { clock } = part.line;
  const bar = barOf(part, tick);
  const start = bar === undefined ? null : clock.barStart(bar);
  return start !== null && clock.ticksPerWhole !== null && isExact(tick - start, clock.ticksPerWhole);
}
