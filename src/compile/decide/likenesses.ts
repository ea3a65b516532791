import type { ControllerValues, MeasuredNote, Span } from '../../midi/index.js';
import type { NearBound, Step } from './nearby.js';

/** Combinations of measures that are tried; more would be so only by design of harm. */
const maxLikenesses = 256;

/**
 * All that a note might as well have been: each choice of steps, one of each measure at most. They are numbered, 0 for the
 * note itself, and share one note, which is made to be one of them when it is asked for.
 */
export class Likenesses {
  readonly #taken: TakenNote;
  /** Of each, what it differs from by its last step. */
  readonly #from: number[] = [0];
  readonly #steps: (Step | undefined)[] = [undefined];
  readonly #costs: number[] = [0];

  /** @param measures how each of the measures near bounds might have come out otherwise */
  constructor(note: MeasuredNote, measures: readonly (readonly Step[])[]) {
    this.#taken = new TakenNote(note);
    for (const steps of measures) if (this.length * (steps.length + 1) <= maxLikenesses) this.#combine(steps);
  }

  get length(): number {
    return this.#costs.length;
  }

  /** What it costs to take the note so. Unit: nats. */
  cost(like: number): number {
    return this.#costs[like] ?? 0;
  }

  /** The note as it would be then; it is another when another is asked for. */
  note(like: number): MeasuredNote {
    this.#taken.restore();
    this.#take(like);
    return this.#taken;
  }

  /** The bounds that it crosses. */
  crossed(like: number): readonly NearBound[] {
    const step = this.#steps[like];
    return step ? [...this.crossed(this.#from[like] ?? 0), step.crossed] : [];
  }

  #combine(steps: readonly Step[]): void {
    const { length } = this;
    for (let like = 0; like < length; like++)
      for (const step of steps) {
        this.#from.push(like);
        this.#steps.push(step);
        this.#costs.push(this.cost(like) + step.cost);
      }
  }

  #take(like: number): void {
    const step = this.#steps[like];
    if (!step) return;
    this.#take(this.#from[like] ?? 0);
    this.#taken.take(step);
  }
}

/** A note that is taken for one that was played a little otherwise, again and again. */
class TakenNote implements MeasuredNote {
  held: Span;
  pace: Span;
  heldShare: number;
  overlapsNext: boolean;
  overlapsPrevious: boolean;
  readonly #note: MeasuredNote;
  readonly #played: Required<Step['change']>;

  constructor(note: MeasuredNote) {
    const { held, pace, heldShare, overlapsNext, overlapsPrevious } = note;
    this.#note = note;
    this.#played = { held, pace, heldShare, overlapsNext, overlapsPrevious };
    this.held = held;
    this.pace = pace;
    this.heldShare = heldShare;
    this.overlapsNext = overlapsNext;
    this.overlapsPrevious = overlapsPrevious;
  }

  restore(): void {
    this.take({ change: this.#played });
  }

  take({ change }: Pick<Step, 'change'>): void {
    this.held = change.held ?? this.held;
    this.pace = change.pace ?? this.pace;
    this.heldShare = change.heldShare ?? this.heldShare;
    this.overlapsNext = change.overlapsNext ?? this.overlapsNext;
    this.overlapsPrevious = change.overlapsPrevious ?? this.overlapsPrevious;
  }

  get onIndex(): number {
    return this.#note.onIndex;
  }

  get offIndex(): number {
    return this.#note.offIndex;
  }

  get tick(): number {
    return this.#note.tick;
  }

  get endTick(): number {
    return this.#note.endTick;
  }

  get pitch(): number {
    return this.#note.pitch;
  }

  get velocity(): number {
    return this.#note.velocity;
  }

  get onset(): number {
    return this.#note.onset;
  }

  get restBefore(): Span {
    return this.#note.restBefore;
  }

  get restAfter(): Span {
    return this.#note.restAfter;
  }

  get leap(): number | null {
    return this.#note.leap;
  }

  get repeatsPrevious(): boolean {
    return this.#note.repeatsPrevious;
  }

  get repeatsNext(): boolean {
    return this.#note.repeatsNext;
  }

  get chord(): number {
    return this.#note.chord;
  }

  get controllers(): ControllerValues {
    return this.#note.controllers;
  }

  get pedalDown(): boolean {
    return this.#note.pedalDown;
  }

  get marks(): ReadonlySet<string> {
    return this.#note.marks;
  }
}
