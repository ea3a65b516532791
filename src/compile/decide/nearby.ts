import { type Measures, overlapTolerance } from '../analyse/index.js';
import type { Bounds } from './bounds.js';
import type { Likenesses, Step } from './likenesses.js';
import type { NoteInHand, StepMeasure } from './note-in-hand.js';

/** A bound that a note lies near, and what the note measures there. */
export interface NearBound {
  readonly measure: 'held' | 'pace' | 'held-share';
  /** ms, or ticks, or a share of the pace, as the bound is. */
  readonly value: number;
  readonly at: number;
  readonly unit: 'ms' | 'ticks' | 'share';
}

const told = {
  heldMs: { measure: 'held', unit: 'ms' },
  heldTicks: { measure: 'held', unit: 'ticks' },
  paceMs: { measure: 'pace', unit: 'ms' },
  paceTicks: { measure: 'pace', unit: 'ticks' },
  heldShare: { measure: 'held-share', unit: 'share' },
  overlapsNext: { measure: 'held-share', unit: 'share' },
  overlapsPrevious: { measure: 'held-share', unit: 'share' },
} as const satisfies Record<StepMeasure, Pick<NearBound, 'measure' | 'unit'>>;

/** What people are told of a step. */
export function boundOf({ measure, value, at }: Step): NearBound {
  return { ...told[measure], value, at };
}

/** Of the bounds on either side of a measure; more would lie within one band only by design of harm. */
const maxBounds = 2;

/** On the other side of a bound, by nothing that matters. */
const below = 1 - 1e-9;

/** Finds which bounds of a map the notes of a line lie near. */
export class NearBounds {
  readonly #measures: Measures;
  readonly #bounds: Bounds;
  readonly #share: number;
  readonly #width: number;

  /** @param share how near is near: 0.4 for 40 % of a bound */
  constructor(measures: Measures, bounds: Bounds, share: number) {
    this.#measures = measures;
    this.#bounds = bounds;
    this.#share = share;
    this.#width = Math.log(1 + share) / 3;
  }

  /** Finds how each measure that lies near a bound might have come out otherwise, on the bound's other side. */
  find(note: NoteInHand, likenesses: Likenesses): void {
    const bounds = this.#bounds;
    likenesses.begin();
    if (this.#share === 0) return;
    if (bounds.held) {
      const { ms, ticks } = note.held;
      this.#across('heldMs', ms, bounds.heldMs, likenesses);
      this.#across('heldTicks', ticks, bounds.heldTicks, likenesses);
    }
    if (bounds.pace) {
      const { ms, ticks } = note.pace;
      this.#across('paceMs', ms, bounds.paceMs, likenesses);
      this.#across('paceTicks', ticks, bounds.paceTicks, likenesses);
    }
    if (bounds.heldShare.length > 0) this.#across('heldShare', note.heldShare, bounds.heldShare, likenesses);
    if (bounds.overlapsNext && this.#isNearOne(note.heldShare, 1))
      this.#otherAnswer('overlapsNext', note.heldShare, note.pace.ms, note.overlapsNext, likenesses);
    const share = bounds.overlapsPrevious ? this.#shareBefore(note) : 0;
    if (this.#isNearOne(share, 1)) {
      const pace = this.#measures.paceMs(note.onset - 1);
      this.#otherAnswer('overlapsPrevious', share, pace, note.overlapsPrevious, likenesses);
    }
  }

  /** Across the bounds that a value is near: from the nearest above outwards, then from the nearest below. */
  #across(measure: StepMeasure, value: number, bounds: readonly number[], likenesses: Likenesses): void {
    let above = 0;
    while (above < bounds.length && (bounds[above] ?? 0) <= value) above++;
    // A bound out of reach ends the way past it.
    const end = Math.min(bounds.length, above + maxBounds);
    for (let index = above; index < end; index++) {
      const at = bounds[index] ?? 0;
      if (!this.#isNearOne(value, at)) break;
      likenesses.step(measure, at, this.#costOf(value, at), at, value);
    }
    const first = Math.max(0, above - maxBounds);
    for (let index = above - 1; index >= first; index--) {
      const at = bounds[index] ?? 0;
      if (!this.#isNearOne(value, at)) break;
      likenesses.step(measure, at * below, this.#costOf(value, at), at, value);
    }
    likenesses.endMeasure();
  }

  /**
   * Whether notes touch is a matter of a share of 1, less what a release may come early. A note that is held that long and
   * yet touches nothing, since a rest follows, may be taken for a joined one at no cost.
   *
   * @param heldShare how far the note that may touch is held: held ÷ interval
   */
  #otherAnswer(
    measure: StepMeasure,
    heldShare: number,
    paceMs: number,
    isTouching: boolean,
    likenesses: Likenesses,
  ): void {
    const bound = Math.max(0.5, 1 - overlapTolerance / paceMs);
    const cost = heldShare >= bound === isTouching ? this.#costOf(heldShare, bound) : 0;
    likenesses.step(measure, isTouching ? 0 : 1, cost, 1, heldShare);
    likenesses.endMeasure();
  }

  /** How far the top note of the onset before is held towards this one; 0 where there is none. */
  #shareBefore({ onset }: NoteInHand): number {
    const before = this.#measures.topOf(onset - 1);
    return before === undefined ? 0 : this.#measures.heldShare(before);
  }

  /**
   * What it costs to take a measure for one beyond a bound: −ln of the odds that it was meant to lie there, by a logistic
   * in ln(bound ÷ measure) whose width is a third of the band. 0 at the bound itself, 3 nats at the end of a band of 40 %.
   * (A cost that was found to work on open performances: dots against slurs, with 4 nats for each change.)
   */
  #costOf(value: number, bound: number): number {
    return Math.abs(Math.log(bound / value)) / this.#width;
  }

  #isNearOne(value: number, bound: number): boolean {
    return value > 0 && Math.abs(value - bound) < this.#share * bound;
  }
}
