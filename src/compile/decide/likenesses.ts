import { type MeasuredNote, type Span, StandIn } from '../../midi/index.js';
import { boundOf, type NearBound, type Step } from './nearby.js';

/** Combinations of measures that are tried; more would be so only by design of harm. */
const maxLikenesses = 256;

/** One of all that a note might as well have been. */
export interface Likeness {
  /** What it differs from by one step; the note itself differs from nothing. */
  readonly from: Likeness | undefined;
  readonly step: Step | undefined;
  /** What it costs to take the note so. Unit: nats. */
  readonly cost: number;
}

const itself: Likeness = { from: undefined, step: undefined, cost: 0 };

/**
 * All that a note might as well have been: each choice of steps, one of each measure at most.
 *
 * @param measures how each of its measures near bounds might have come out otherwise
 * @returns the note itself, then the others
 */
export function likenessesOf(measures: readonly (readonly Step[])[]): readonly Likeness[] {
  const all = [itself];
  for (const steps of measures) {
    const { length } = all;
    if (length * (steps.length + 1) > maxLikenesses) continue;
    for (let at = 0; at < length; at++) {
      const from = all[at] ?? itself;
      for (const step of steps) all.push({ from, step, cost: from.cost + step.cost });
    }
  }
  return all;
}

/** The bounds that a likeness crosses. */
export function crossed({ from, step }: Likeness): readonly NearBound[] {
  return from && step ? [...crossed(from), boundOf(step)] : [];
}

/** A note that is taken for one that was played a little otherwise, again and again. */
export class TakenNote extends StandIn {
  #held: Span | undefined;
  #pace: Span | undefined;
  #heldShare: number | undefined;
  #overlapsNext: boolean | undefined;
  #overlapsPrevious: boolean | undefined;

  /** Stands in for another note as it was played. */
  standIn(note: MeasuredNote): this {
    this.standFor(note);
    this.#restore();
    return this;
  }

  /** Is like it, but for the steps of a likeness. */
  take(likeness: Likeness): void {
    this.#restore();
    this.#takeSteps(likeness);
  }

  #restore(): void {
    this.#held = undefined;
    this.#pace = undefined;
    this.#heldShare = undefined;
    this.#overlapsNext = undefined;
    this.#overlapsPrevious = undefined;
  }

  /** Of times and ticks, of which each has steps of its own, the last that is taken stands. */
  #takeSteps({ from, step }: Likeness): void {
    if (!from || !step) return;
    this.#takeSteps(from);
    const { measure, to } = step;
    if (measure === 'heldMs') this.#held = { ms: to, ticks: this.original.held.ticks };
    else if (measure === 'heldTicks') this.#held = { ms: this.original.held.ms, ticks: to };
    else if (measure === 'paceMs') this.#pace = { ms: to, ticks: this.original.pace.ticks };
    else if (measure === 'paceTicks') this.#pace = { ms: this.original.pace.ms, ticks: to };
    else if (measure === 'heldShare') this.#heldShare = to;
    else if (measure === 'overlapsNext') this.#overlapsNext = to === 1;
    else this.#overlapsPrevious = to === 1;
  }

  override get held(): Span {
    return this.#held ?? this.original.held;
  }

  override get pace(): Span {
    return this.#pace ?? this.original.pace;
  }

  override get heldShare(): number {
    return this.#heldShare ?? this.original.heldShare;
  }

  override get overlapsNext(): boolean {
    return this.#overlapsNext ?? this.original.overlapsNext;
  }

  override get overlapsPrevious(): boolean {
    return this.#overlapsPrevious ?? this.original.overlapsPrevious;
  }
}
