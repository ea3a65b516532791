import type { NoteInHand, StepMeasure } from './note-in-hand.js';

/** Combinations of measures that are tried; more would be so only by design of harm. */
const maxLikenesses = 256;

/** How one measure of a note might have come out otherwise, beyond one bound. */
export interface Step {
  readonly measure: StepMeasure;
  /** What it would be then; of what is yes or no, 1 or 0. */
  readonly to: number;
  /** Unit: nats. */
  readonly cost: number;
  /** The bound that is crossed, and what was measured there. */
  readonly at: number;
  readonly value: number;
}

/**
 * All that a note might as well have been: each choice of steps, one of each measure at most. The first, with index 0, is
 * the note itself. One object serves one note after another.
 */
export class Likenesses {
  /** How many there are. */
  length = 1;
  /** The steps of the measure that is being told of, and of those before it. */
  #steps = 0;
  #ofMeasure = 0;
  readonly #measures: StepMeasure[] = [];
  readonly #to: number[] = [];
  readonly #stepCosts: number[] = [];
  readonly #at: number[] = [];
  readonly #values: number[] = [];
  /** What each likeness differs from by one step, and that step. */
  readonly #from = new Uint8Array(maxLikenesses);
  readonly #by = new Uint8Array(maxLikenesses);
  readonly #costs = new Float64Array(maxLikenesses);

  /** Begins another note. */
  begin(): void {
    this.length = 1;
    this.#steps = 0;
    this.#ofMeasure = 0;
  }

  /** How the measure that is told of might have come out. */
  step(measure: StepMeasure, to: number, cost: number, at: number, value: number): void {
    const step = this.#steps;
    this.#measures[step] = measure;
    this.#to[step] = to;
    this.#stepCosts[step] = cost;
    this.#at[step] = at;
    this.#values[step] = value;
    this.#steps = step + 1;
  }

  /** Ends a measure: each likeness so far also comes with each of its steps, unless those would be too many. */
  endMeasure(): void {
    const { length } = this;
    const [first, end] = [this.#ofMeasure, this.#steps];
    if (first === end) return;
    this.#ofMeasure = end;
    if (length * (end - first + 1) > maxLikenesses) return;
    for (let from = 0; from < length; from++)
      for (let step = first; step < end; step++) {
        this.#from[this.length] = from;
        this.#by[this.length] = step;
        this.#costs[this.length] = this.cost(from) + (this.#stepCosts[step] ?? 0);
        this.length += 1;
      }
  }

  /** What it costs to take the note so. Unit: nats. */
  cost(likeness: number): number {
    return this.#costs[likeness] ?? 0;
  }

  /** Takes the note for a likeness of it. */
  take(likeness: number, note: NoteInHand): void {
    note.asPlayed();
    this.#takeSteps(likeness, note);
  }

  /** The steps of a likeness. */
  stepsOf(likeness: number): readonly Step[] {
    if (likeness === 0) return [];
    const step = this.#by[likeness] ?? 0;
    const measure = this.#measures[step];
    const before = this.stepsOf(this.#from[likeness] ?? 0);
    if (measure === undefined) return before;
    const numbers = [this.#to, this.#stepCosts, this.#at, this.#values].map((column) => column[step] ?? 0);
    const [to = 0, cost = 0, at = 0, value = 0] = numbers;
    return [...before, { measure, to, cost, at, value }];
  }

  #takeSteps(likeness: number, note: NoteInHand): void {
    if (likeness === 0) return;
    this.#takeSteps(this.#from[likeness] ?? 0, note);
    const step = this.#by[likeness] ?? 0;
    const measure = this.#measures[step];
    if (measure !== undefined) note.take(measure, this.#to[step] ?? 0);
  }
}
