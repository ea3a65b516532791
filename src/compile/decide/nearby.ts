import { changedNote, type MeasuredNote, type NoteChange } from '../../midi/index.js';
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

/** A note as it might as well have been played, and what it costs to take it so. Unit: nats. */
export interface Likeness {
  readonly note: MeasuredNote;
  readonly cost: number;
  /** The bounds that it crosses; none for the note itself. */
  readonly crossed: readonly NearBound[];
}

/** How far a note is held towards the next onset. */
export interface Touch {
  /** Held ÷ interval. */
  readonly heldShare: number;
  readonly paceMs: number;
}

/** How one measure of a note might have come out otherwise. */
interface Step {
  readonly cost: number;
  readonly crossed?: NearBound;
  readonly change: NoteChange;
}

/** Of the bounds on either side of a measure; more would lie within one band only by design of harm. */
const maxBounds = 2;

/** Combinations of measures that are tried; more would be so only by design of harm. */
const maxLikenesses = 256;

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

/**
 * The note itself, then all that it might as well have been: with measures that lie within `share` of a bound on the
 * bound's other side.
 *
 * @param before how far the top note of the onset before was held towards this one, if there is one
 * @param share 0.4 for 40 %
 */
export function likenesses(
  note: MeasuredNote,
  before: Touch | undefined,
  bounds: Bounds,
  share: number,
): readonly Likeness[] {
  const all: Likeness[] = [{ note, cost: 0, crossed: [] }];
  for (const steps of measuresNear(note, before, bounds, share)) {
    if (all.length * (steps.length + 1) > maxLikenesses) continue;
    for (const one of all.slice()) for (const step of steps) all.push(taken(one, step));
  }
  return all;
}

/** Whether a note has likenesses at all; most have none, which is found here at little cost. */
export function isNearBound(
  { held, pace, heldShare }: MeasuredNote,
  before: Touch | undefined,
  bounds: Bounds,
  share: number,
): boolean {
  if (share === 0) return false;
  return (
    isNearAny(held.ms, bounds.heldMs, share) ||
    isNearAny(held.ticks, bounds.heldTicks, share) ||
    isNearAny(pace.ms, bounds.paceMs, share) ||
    isNearAny(pace.ticks, bounds.paceTicks, share) ||
    isNearAny(heldShare, bounds.heldShare, share) ||
    (bounds.overlapsNext && isNear(heldShare, 1, share)) ||
    (bounds.overlapsPrevious && before !== undefined && isNear(before.heldShare, 1, share))
  );
}

function isNearAny(value: number, bounds: readonly number[], share: number): boolean {
  for (const bound of bounds) if (isNear(value, bound, share)) return true;
  return false;
}

function taken(one: Likeness, { cost, crossed, change }: Step): Likeness {
  return {
    note: changedNote(one.note, change),
    cost: one.cost + cost,
    crossed: crossed ? [...one.crossed, crossed] : one.crossed,
  };
}

/** How each measure that lies near a bound might have come out otherwise. */
function measuresNear(
  note: MeasuredNote,
  before: Touch | undefined,
  bounds: Bounds,
  share: number,
): readonly (readonly Step[])[] {
  const { held, pace, heldShare } = note;
  const found: (readonly Step[])[] = [];
  const near = (
    value: number,
    of: readonly number[],
    about: Pick<NearBound, 'measure' | 'unit'>,
    change: (value: number) => NoteChange,
  ) => {
    if (!isNearAny(value, of, share)) return;
    found.push(
      across(value, of, share).map(({ at, to }) => ({
        cost: costOf(value, at, share),
        crossed: { ...about, value, at },
        change: change(to),
      })),
    );
  };
  near(held.ms, bounds.heldMs, { measure: 'held', unit: 'ms' }, (ms) => ({ held: { ...held, ms } }));
  near(held.ticks, bounds.heldTicks, { measure: 'held', unit: 'ticks' }, (ticks) => ({
    held: { ...held, ticks },
  }));
  near(pace.ms, bounds.paceMs, { measure: 'pace', unit: 'ms' }, (ms) => ({ pace: { ...pace, ms } }));
  near(pace.ticks, bounds.paceTicks, { measure: 'pace', unit: 'ticks' }, (ticks) => ({
    pace: { ...pace, ticks },
  }));
  near(heldShare, bounds.heldShare, { measure: 'held-share', unit: 'share' }, (of) => ({ heldShare: of }));
  const other = (touch: Touch, isTouching: boolean, change: NoteChange) => {
    if (isNear(touch.heldShare, 1, share)) found.push([otherAnswer(touch, isTouching, share, change)]);
  };
  if (bounds.overlapsNext)
    other({ heldShare, paceMs: pace.ms }, note.overlapsNext, { overlapsNext: !note.overlapsNext });
  if (bounds.overlapsPrevious && before !== undefined)
    other(before, note.overlapsPrevious, { overlapsPrevious: !note.overlapsPrevious });
  return found;
}

/**
 * Whether notes touch is a matter of a share of 1, less what a release may come early. A note that is held that long and
 * yet touches nothing, since a rest follows, may be taken for a joined one at no cost.
 */
function otherAnswer(
  { heldShare, paceMs }: Touch,
  isTouching: boolean,
  share: number,
  change: NoteChange,
): Step {
  const bound = Math.max(0.5, 1 - overlapTolerance / paceMs);
  const isBeyond = heldShare >= bound;
  const crossed = { measure: 'held-share', unit: 'share', value: heldShare, at: 1 } as const;
  return { cost: isBeyond === isTouching ? costOf(heldShare, bound, share) : 0, crossed, change };
}

/** The bounds that a value is near, from the nearest on each side outwards, and a value beyond each. */
function across(
  value: number,
  bounds: readonly number[],
  share: number,
): readonly { readonly at: number; readonly to: number }[] {
  const first = bounds.findIndex((bound) => bound > value);
  const split = first < 0 ? bounds.length : first;
  const above = bounds.slice(split, split + maxBounds);
  const beneath = bounds.slice(Math.max(0, split - maxBounds), split).reverse();
  return [
    ...untilFar(above, value, share).map((at) => ({ at, to: at })),
    ...untilFar(beneath, value, share).map((at) => ({ at, to: at * below })),
  ];
}

/** A bound out of reach ends the way past it. */
function untilFar(bounds: readonly number[], value: number, share: number): readonly number[] {
  const far = bounds.findIndex((bound) => !isNear(value, bound, share));
  return far < 0 ? bounds : bounds.slice(0, far);
}

function isNear(value: number, bound: number, share: number): boolean {
  return value > 0 && Math.abs(value - bound) < share * bound;
}
