import { type MeasuredNote, type Span, StandIn } from '../../midi/index.js';
import type { Measured, NearBound, Step } from './nearby.js';

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
class TakenNote extends StandIn {
  readonly #played: Measured;
  readonly #taken: Measured;

  constructor(note: MeasuredNote) {
    super(note);
    const { held, pace, heldShare, overlapsNext, overlapsPrevious } = note;
    this.#played = { held, pace, heldShare, overlapsNext, overlapsPrevious };
    this.#taken = { ...this.#played };
  }

  restore(): void {
    Object.assign(this.#taken, this.#played);
  }

  take({ change }: Step): void {
    Object.assign(this.#taken, change);
  }

  override get held(): Span {
    return this.#taken.held;
  }

  override get pace(): Span {
    return this.#taken.pace;
  }

  override get heldShare(): number {
    return this.#taken.heldShare;
  }

  override get overlapsNext(): boolean {
    return this.#taken.overlapsNext;
  }

  override get overlapsPrevious(): boolean {
    return this.#taken.overlapsPrevious;
  }
}
