import {
  type ControllerValues,
  firstNote,
  type Line,
  type MeasuredNote,
  noteEnd,
  noteTick,
  type Onset,
  offOf,
  onOf,
  pitchOf,
  type Span,
  velocityOf,
} from '../../midi/index.js';
import { isPedalDown } from './controls.js';
import type { Measures } from './measures.js';

const noMarks: ReadonlySet<string> = new Set();

/** A note of a line: an index into its columns. What is asked of it is measured there and then. */
export class LineNote implements MeasuredNote {
  readonly #of: Measures;
  #note: number;

  constructor(of: Measures, note: number) {
    this.#of = of;
    this.#note = note;
  }

  /** From now on it is another note; of a line that is gone through, so that not every note needs an object. */
  protected become(note: number): void {
    this.#note = note;
  }

  get onIndex(): number {
    return onOf(this.#of.notes, this.#note);
  }

  get offIndex(): number {
    return offOf(this.#of.notes, this.#note);
  }

  get tick(): number {
    return noteTick(this.#of.notes, this.#note);
  }

  get endTick(): number {
    return noteEnd(this.#of.notes, this.#note);
  }

  get pitch(): number {
    return pitchOf(this.#of.notes, this.#note);
  }

  get velocity(): number {
    return velocityOf(this.#of.notes, this.#note);
  }

  get onset(): number {
    return this.#of.onsetOf(this.#note);
  }

  get held(): Span {
    return this.#of.held(this.#note);
  }

  get pace(): Span {
    return this.#of.interval(this.onset) ?? this.held;
  }

  get heldShare(): number {
    return this.#of.heldShare(this.#note);
  }

  get restBefore(): Span {
    return this.#of.restAfter(this.onset - 1);
  }

  get restAfter(): Span {
    return this.#of.restAfter(this.onset);
  }

  get overlapsNext(): boolean {
    return this.#of.overlapsNext(this.#note);
  }

  get overlapsPrevious(): boolean {
    const previous = this.#of.topOf(this.onset - 1);
    return previous !== undefined && this.#of.overlapsNext(previous);
  }

  get leap(): number | null {
    const previous = this.#topPitch(this.onset - 1);
    return previous === undefined ? null : Math.abs(this.pitch - previous);
  }

  get repeatsPrevious(): boolean {
    return this.#topPitch(this.onset - 1) === this.pitch;
  }

  get repeatsNext(): boolean {
    return this.#topPitch(this.onset + 1) === this.pitch;
  }

  get chord(): number {
    const { onsets } = this.#of;
    return firstNote(onsets, this.onset + 1) - firstNote(onsets, this.onset);
  }

  get controllers(): ControllerValues {
    return this.#of.controls.at(this.onIndex);
  }

  get pedalDown(): boolean {
    return isPedalDown(this.controllers);
  }

  get marks(): ReadonlySet<string> {
    return this.#of.marks[this.onset] ?? noMarks;
  }

  #topPitch(onset: number): number | undefined {
    const top = this.#of.topOf(onset);
    return top === undefined ? undefined : pitchOf(this.#of.notes, top);
  }
}

/** An onset of a line, likewise. */
export class LineOnset implements Onset {
  readonly index: number;
  readonly #of: Measures;
  readonly #line: Pick<Line, 'notes'>;

  /** @param line that it is of; its notes are made when they are first asked for */
  constructor(of: Measures, line: Pick<Line, 'notes'>, index: number) {
    this.#of = of;
    this.#line = line;
    this.index = index;
  }

  get tick(): number {
    return this.#of.onsetTick(this.index) ?? 0;
  }

  get lastTick(): number {
    return noteTick(this.#of.notes, firstNote(this.#of.onsets, this.index + 1) - 1);
  }

  get pace(): Span {
    return this.top.pace;
  }

  get notes(): readonly MeasuredNote[] {
    const { onsets } = this.#of;
    return this.#line.notes.slice(firstNote(onsets, this.index), firstNote(onsets, this.index + 1));
  }

  get top(): MeasuredNote {
    const top = this.#line.notes[this.#of.topOf(this.index) ?? 0];
    if (!top) throw new Error(`onset ${this.index} has no notes`);
    return top;
  }
}
