import type { ArticulationMap } from '../../map/index.js';
import {
  type Clock,
  firstNote,
  type Line,
  type MeasuredNote,
  type Notes,
  noteEnd,
  noteTick,
  type Onset,
  type Onsets,
  onsetsOf,
  type Part,
  topNote,
} from '../../midi/index.js';
import { type Controls, noControls } from './controls.js';
import { LineNote, LineOnset } from './line-note.js';
import { Measures } from './measures.js';

/** A line with the columns that it is measured from; its notes and onsets are objects when they are first asked for. */
export interface MeasuredLine extends Line {
  readonly measures: Measures;
}

/** An onset this much before a mark is at it, but no more than half of its pace. Unit: ms. */
const markReach = 60;

/**
 * Makes a line of paired notes: finds what was struck together. What else is asked of its notes is measured when it is.
 *
 * @param marksAt gives the marks of each onset, by the tick up to which marks are at it: a mark stands where it is
 *   written, a note where it was played; absent where there are none
 */
export function lineOf(
  about: Pick<Line, 'file' | 'part' | 'clock'>,
  notes: Notes,
  map: ArticulationMap,
  marksAt: ((reaches: readonly number[], onsets: Onsets) => readonly ReadonlySet<string>[]) | undefined,
  controls: Controls = noControls,
): MeasuredLine {
  const { clock } = about;
  const onsets = onsetsOf(notes, clock, map.chordWindow);
  const marks = marksAt?.(reachesOf(notes, onsets, clock), onsets) ?? [];
  const isLengthened = map.pedal === 'lengthens';
  const measures = new Measures({ notes, onsets, clock, marks, controls, isLengthened });
  return new ColumnLine(about, measures);
}

class ColumnLine implements MeasuredLine {
  readonly file: string;
  readonly part: Part;
  readonly clock: Clock;
  readonly measures: Measures;
  #notes: readonly MeasuredNote[] | undefined;
  #onsets: readonly Onset[] | undefined;

  constructor({ file, part, clock }: Pick<Line, 'file' | 'part' | 'clock'>, measures: Measures) {
    this.file = file;
    this.part = part;
    this.clock = clock;
    this.measures = measures;
  }

  get notes(): readonly MeasuredNote[] {
    const { measures } = this;
    this.#notes ??= Array.from({ length: measures.notes.length }, (_, note) => new LineNote(measures, note));
    return this.#notes;
  }

  get onsets(): readonly Onset[] {
    const { measures } = this;
    const { length } = measures.onsets;
    this.#onsets ??= Array.from({ length }, (_, onset) => new LineOnset(measures, this, onset));
    return this.#onsets;
  }
}

function reachesOf(notes: Notes, onsets: Onsets, clock: Clock): readonly number[] {
  return Array.from({ length: onsets.length }, (_, onset) => {
    const first = noteTick(notes, firstNote(onsets, onset));
    const begins = clock.ms(first);
    const isLast = onset === onsets.length - 1;
    const next = isLast
      ? noteEnd(notes, topNote(onsets, onset))
      : noteTick(notes, firstNote(onsets, onset + 1));
    const pace = clock.ms(next) - begins;
    return Math.max(first, clock.tickAt(begins + Math.min(markReach, pace / 2)));
  });
}
