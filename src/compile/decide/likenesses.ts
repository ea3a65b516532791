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

/** What may have come out otherwise about a note. */
interface Measured {
  held: Span;
  pace: Span;
  heldShare: number;
  overlapsNext: boolean;
  overlapsPrevious: boolean;
}

function measuredOf({ held, pace, heldShare, overlapsNext, overlapsPrevious }: MeasuredNote): Measured {
  return { held, pace, heldShare, overlapsNext, overlapsPrevious };
}

function put(from: Readonly<Measured>, to: Measured): void {
  to.held = from.held;
  to.pace = from.pace;
  to.heldShare = from.heldShare;
  to.overlapsNext = from.overlapsNext;
  to.overlapsPrevious = from.overlapsPrevious;
}

/** A note that is taken for one that was played a little otherwise, again and again. */
export class TakenNote extends StandIn {
  readonly #played: Measured;
  readonly #taken: Measured;

  constructor(note: MeasuredNote) {
    super(note);
    this.#played = measuredOf(note);
    this.#taken = measuredOf(note);
  }

  /** Stands in for a note as it was played. */
  standIn(note: MeasuredNote): void {
    this.standFor(note);
    put(note, this.#played);
    put(note, this.#taken);
  }

  /** Is like it, but for the steps of a likeness. */
  take(likeness: Likeness): void {
    put(this.#played, this.#taken);
    this.#takeSteps(likeness);
  }

  /** Of times and ticks, of which each has steps of its own, the last that is taken stands. */
  #takeSteps({ from, step }: Likeness): void {
    if (!from || !step) return;
    this.#takeSteps(from);
    const { measure, to } = step;
    const [played, taken] = [this.#played, this.#taken];
    if (measure === 'heldMs') taken.held = { ms: to, ticks: played.held.ticks };
    else if (measure === 'heldTicks') taken.held = { ms: played.held.ms, ticks: to };
    else if (measure === 'paceMs') taken.pace = { ms: to, ticks: played.pace.ticks };
    else if (measure === 'paceTicks') taken.pace = { ms: played.pace.ms, ticks: to };
    else if (measure === 'heldShare') taken.heldShare = to;
    else taken[measure] = to === 1;
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
