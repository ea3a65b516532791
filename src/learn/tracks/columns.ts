import type { MeasuredLine } from '../../compile/index.js';
import type { Clock, MeasuredNote, Onset } from '../../midi/index.js';
import type { LearnNotes } from '../notes.js';

/** A line, and the articulations of its notes. */
export interface LearnLine {
  /** What it is called where people are told of it. */
  readonly name: string;
  readonly line: MeasuredLine;
  /** top: the highest note of a chord decides for all. each: every note for itself. */
  readonly chords: 'top' | 'each';
  /** Index into the articulations; −1 where it is not known. */
  labelOf(note: MeasuredNote): number;
}

interface Row {
  readonly piece: number;
  readonly clock: Clock;
  readonly onset: Onset;
  readonly note: MeasuredNote;
  readonly label: number;
}

/** Lines as columns: a row for each note that decides for itself. */
export function columnsOf(lines: readonly LearnLine[], articulations: readonly string[]): LearnNotes {
  const rows = lines.flatMap(({ line, chords, labelOf }, piece): Row[] =>
    line.onsets.flatMap((onset) =>
      (chords === 'top' ? [onset.top] : onset.notes).map((note) => ({
        piece,
        clock: line.clock,
        onset,
        note,
        label: labelOf(note),
      })),
    ),
  );
  const of = (value: (row: Row) => number) => Float64Array.from(rows, value);
  const flag = (value: (note: MeasuredNote) => boolean) => of(({ note }) => (value(note) ? 1 : 0));
  return {
    length: rows.length,
    pieces: lines.map(({ name, line }) => ({ name, ticksPerWhole: line.clock.ticksPerWhole ?? 1 })),
    piece: of(({ piece }) => piece),
    articulations,
    label: of(({ label }) => label),
    tick: of(({ note }) => note.tick),
    bar: of(({ clock, onset }) => clock.position(onset.tick)?.bar ?? 0),
    beat: of(({ clock, onset }) => beatOf(clock, onset.tick)),
    heldMs: of(({ note }) => note.held.ms),
    heldTicks: of(({ note }) => note.held.ticks),
    paceMs: of(({ note }) => note.pace.ms),
    paceTicks: of(({ note }) => note.pace.ticks),
    heldShare: of(({ note }) => 100 * note.heldShare),
    restBeforeMs: of(({ note }) => note.restBefore.ms),
    restBeforeTicks: of(({ note }) => note.restBefore.ticks),
    restAfterMs: of(({ note }) => note.restAfter.ms),
    restAfterTicks: of(({ note }) => note.restAfter.ticks),
    velocity: of(({ note }) => note.velocity),
    pitch: of(({ note }) => note.pitch),
    leap: of(({ note }) => note.leap ?? Number.NaN),
    chord: of(({ note }) => note.chord),
    repeatsPrevious: flag(({ repeatsPrevious }) => repeatsPrevious),
    repeatsNext: flag(({ repeatsNext }) => repeatsNext),
    overlapsNext: flag(({ overlapsNext }) => overlapsNext),
    overlapsPrevious: flag(({ overlapsPrevious }) => overlapsPrevious),
  };
}

/** From 1, with its fraction; 0 where the file has no bars. */
function beatOf(clock: Clock, tick: number): number {
  const position = clock.position(tick);
  if (!position) return 0;
  const from = clock.barStart(position.bar, position.beat) ?? tick;
  const to = clock.barStart(position.bar, position.beat + 1) ?? from;
  return position.beat + (to > from ? (tick - from) / (to - from) : 0);
}
