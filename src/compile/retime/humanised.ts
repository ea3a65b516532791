import { isExact, loosen, type NoteKey, occurrences, roll } from '../../timing/index.js';
import { byOnset, firstStarts, type RetimedPart } from './state.js';

/**
 * Chance for each note, which depends on the note alone: its part, its pitch, where it was played, and which of several
 * alike it is.
 */
function keysOf({ line, decisions, options }: RetimedPart): readonly NoteKey[] {
  const counts = occurrences(decisions.map(({ note }) => note));
  const part = `${line.part.trackName} ${line.part.channel}`;
  return decisions.map(({ note }, index) => ({
    seed: options.seed,
    part,
    pitch: note.pitch,
    position: note.tick,
    occurrence: counts[index] ?? 0,
  }));
}

/** Chords spread as by several players: new ticks, by decision. */
export function rolledStarts(part: RetimedPart, starts: readonly number[]): readonly number[] {
  const { roll: option } = part.options;
  if (!option) return starts;
  const { clock } = part.line;
  const keys = keysOf(part);
  const groups = byOnset(part);
  const first = firstStarts(part, starts);
  const last = groups.map((group) => group.reduce((most, index) => Math.max(most, starts[index] ?? 0), 0));
  const moved = [...starts];
  groups.forEach((group, onset) => {
    if (group.length < 2) return;
    const begins = clock.ms(first[onset] ?? 0);
    const before = last[onset - 1];
    const after = first[onset + 1];
    const offsets = roll(
      group.flatMap((index) => keys[index] ?? []),
      {
        ...option,
        roomBeforeMs: begins - (before === undefined ? 0 : clock.ms(before)),
        ...(after === undefined ? {} : { roomAfterMs: clock.ms(after) - clock.ms(last[onset] ?? 0) }),
      },
    );
    group.forEach((index, at) => {
      moved[index] = clock.tickAt(clock.ms(starts[index] ?? 0) + (offsets[at] ?? 0));
    });
  });
  return moved;
}

/** Single notes moved off a grid that they keep to too exactly: new ticks, by decision. */
export function loosenedStarts(part: RetimedPart, starts: readonly number[]): readonly number[] {
  const { loosenMs } = part.options;
  const { clock } = part.line;
  if (!loosenMs) return starts;
  const keys = keysOf(part);
  const groups = byOnset(part);
  const loose = groups.flatMap((group) => {
    const [index] = group;
    const key = index === undefined ? undefined : keys[index];
    if (index === undefined || !key) return [];
    const tick = starts[index] ?? 0;
    return [
      {
        index,
        key,
        ms: clock.ms(tick),
        barEndMs: barEnd(part, tick),
        exact: group.length === 1 && isOnGrid(part, tick),
      },
    ];
  });
  const offsets = loosen(loose, loosenMs);
  const moved = [...starts];
  loose.forEach(({ index, ms }, at) => {
    const offset = offsets[at] ?? 0;
    if (offset !== 0) moved[index] = clock.tickAt(ms + offset);
  });
  return moved;
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
