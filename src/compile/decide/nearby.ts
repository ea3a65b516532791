import type { MeasuredNote } from '../../midi/index.js';
import { overlapTolerance } from '../analyse/index.js';
import type { Bounds } from './bounds.js';

/** A bound that a note lies near, and what the note measures there. */
export interface NearBound {
  readonly measure: 'held' | 'pace' | 'held-share';
  /** ms, or ticks, or a share of the pace, as the bound is. */
  readonly value: number;
  readonly at: number;
  readonly unit: 'ms' | 'ticks' | 'share';
}

/** How far a note is held towards the next onset. */
export interface Touch {
  /** Held ÷ interval. */
  readonly heldShare: number;
  readonly paceMs: number;
}

/** What may have come out otherwise about a note. */
export type StepMeasure =
  | 'heldMs'
  | 'heldTicks'
  | 'paceMs'
  | 'paceTicks'
  | 'heldShare'
  | 'overlapsNext'
  | 'overlapsPrevious';

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

/**
 * What it costs to take a measure for one beyond a bound: −ln of the odds that it was meant to lie there, by a logistic
 * in ln(bound ÷ measure) whose width is a third of the band. 0 at the bound itself, 3 nats at the end of a band of 40 %.
 * (A cost that was found to work on open performances: dots against slurs, with 4 nats for each change.)
 */
function costOf(value: number, bound: number, share: number): number {
  return Math.abs(Math.log(bound / value)) / (Math.log(1 + share) / 3);
}

/** Whether a note has likenesses at all; most have none, which is found here at little cost. */
export function isNearBound(
  note: MeasuredNote,
  before: Touch | undefined,
  bounds: Bounds,
  share: number,
): boolean {
  if (share === 0) return false;
  if (bounds.held) {
    const { ms, ticks } = note.held;
    if (isNearAny(ms, bounds.heldMs, share) || isNearAny(ticks, bounds.heldTicks, share)) return true;
  }
  if (bounds.pace) {
    const { ms, ticks } = note.pace;
    if (isNearAny(ms, bounds.paceMs, share) || isNearAny(ticks, bounds.paceTicks, share)) return true;
  }
  return (
    isNearAny(note.heldShare, bounds.heldShare, share) ||
    (bounds.overlapsNext && isNear(note.heldShare, 1, share)) ||
    (bounds.overlapsPrevious && before !== undefined && isNear(before.heldShare, 1, share))
  );
}

function isNearAny(value: number, bounds: readonly number[], share: number): boolean {
  for (const bound of bounds) if (isNear(value, bound, share)) return true;
  return false;
}

/**
 * How each measure that lies within `share` of a bound might have come out otherwise, on the bound's other side.
 *
 * @param before how far the top note of the onset before was held towards this one, if there is one
 * @param share 0.4 for 40 %
 * @returns a list for each such measure
 */
export function stepsNear(
  note: MeasuredNote,
  before: Touch | undefined,
  bounds: Bounds,
  share: number,
): readonly (readonly Step[])[] {
  const { held, pace, heldShare } = note;
  const found: (readonly Step[])[] = [];
  const near = (measure: StepMeasure, value: number, of: readonly number[]) => {
    if (isNearAny(value, of, share)) found.push(stepsAcross(measure, value, of, share));
  };
  near('heldMs', held.ms, bounds.heldMs);
  near('heldTicks', held.ticks, bounds.heldTicks);
  near('paceMs', pace.ms, bounds.paceMs);
  near('paceTicks', pace.ticks, bounds.paceTicks);
  near('heldShare', heldShare, bounds.heldShare);
  const touching = (measure: StepMeasure, touch: Touch, isTouching: boolean) => {
    if (isNear(touch.heldShare, 1, share)) found.push([otherAnswer(measure, touch, isTouching, share)]);
  };
  if (bounds.overlapsNext) touching('overlapsNext', { heldShare, paceMs: pace.ms }, note.overlapsNext);
  if (bounds.overlapsPrevious && before !== undefined)
    touching('overlapsPrevious', before, note.overlapsPrevious);
  return found;
}

/**
 * Whether notes touch is a matter of a share of 1, less what a release may come early. A note that is held that long and
 * yet touches nothing, since a rest follows, may be taken for a joined one at no cost.
 */
function otherAnswer(
  measure: StepMeasure,
  { heldShare, paceMs }: Touch,
  isTouching: boolean,
  share: number,
): Step {
  const bound = Math.max(0.5, 1 - overlapTolerance / paceMs);
  const isBeyond = heldShare >= bound;
  const cost = isBeyond === isTouching ? costOf(heldShare, bound, share) : 0;
  return { measure, to: isTouching ? 0 : 1, cost, at: 1, value: heldShare };
}

/** Across the bounds that a value is near: from the nearest above outwards, then from the nearest below. */
function stepsAcross(
  measure: StepMeasure,
  value: number,
  bounds: readonly number[],
  share: number,
): readonly Step[] {
  const steps: Step[] = [];
  let above = 0;
  while (above < bounds.length && (bounds[above] ?? 0) <= value) above++;
  // A bound out of reach ends the way past it.
  for (let index = above; index < Math.min(bounds.length, above + maxBounds); index++) {
    const at = bounds[index] ?? 0;
    if (!isNear(value, at, share)) break;
    steps.push({ measure, to: at, cost: costOf(value, at, share), at, value });
  }
  for (let index = above - 1; index >= Math.max(0, above - maxBounds); index--) {
    const at = bounds[index] ?? 0;
    if (!isNear(value, at, share)) break;
    steps.push({ measure, to: at * below, cost: costOf(value, at, share), at, value });
  }
  return steps;
}

function isNear(value: number, bound: number, share: number): boolean {
  return value > 0 && Math.abs(value - bound) < share * bound;
}
