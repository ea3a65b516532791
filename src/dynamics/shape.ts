import { archAt, turnAt } from './arch.js';
import { type Curve, curveThrough, type Target } from './curve.js';
import { withinMarks } from './levels.js';
import { type Phrase, phrasesOf } from './phrases.js';
import { heldOverSpreads } from './spread.js';
import type { Struck } from './struck.js';
import { thin } from './thin.js';
import { levelOfVelocity } from './velocity.js';

/** How a line shapes its loudness. Amounts are in marks of the scale: 1 is from p to mp. */
export interface ShapeOptions {
  /** The level that the shape is laid on: one for the whole line, or targets (of marks, of crescendos). */
  readonly base: number | readonly Target[];
  /** How much louder than its ends a phrase's turn is. */
  readonly arch: number;
  /** How much of the differences of note velocity is taken over, 0 to 1. */
  readonly velocities: number;
  /** By how much a long note swells within a phrase. */
  readonly swell: number;
  /** By how much a long note that ends a phrase decays. */
  readonly decay: number;
  /** From when on a held note is long. Unit: ms. */
  readonly longMs: number;
}

/** Own choice, no source; subtle, less than a mark in every respect but the whole. */
export const defaultShape: Omit<ShapeOptions, 'base'> = {
  arch: 0.8,
  velocities: 0.5,
  swell: 0.5,
  decay: 0.7,
  longMs: 1200,
};

/** Where a long note that swells is loudest, as a share of its length. Own choice, no source. */
const swellTurn = 0.6;

/** Targets nearer than this to the line between the others are left out: an eighth of a mark, 2 controller steps. */
export const contourTolerance = 1 / 8;

/** A silence that is heard as one; across it the level changes at once. Unit: ms. */
const heardSilenceMs = 50;

/**
 * The targets of a line's loudness, made from the line itself: the base, an arch over each phrase (centred, so that a
 * phrase is as loud as the base in the middle of its range), the differences of note velocity from the line's mean, long
 * notes that swell, and long last notes that decay. Of what changes from note to note only the points that matter are
 * kept (Ramer, Douglas & Peucker, within an eighth of a mark). In a rest only the base moves, and the next phrase begins at
 * its own level; without a rest the one goes over into the other. Where the base jumps, so does the result. While a spread
 * chord is struck, the level stands still. All levels lie from ppp to fff. Linear in onsets and base targets, but for a bisection for each.
 *
 * @returns for `curveThrough`; empty for a line without onsets
 */
export function shapeTargets(onsets: readonly Struck[], options: ShapeOptions): readonly Target[] {
  if (onsets.length === 0) return [];
  const mean = onsets.reduce((sum, { velocity }) => sum + levelOfVelocity(velocity), 0) / onsets.length;
  const offsets: Target[] = [];
  let wasSilent = false;
  for (const phrase of phrasesOf(onsets)) {
    const contour = contourOf(onsets, phrase, mean, options);
    const before = offsets.at(-1);
    const start = contour[0];
    if (wasSilent && before && start) offsets.push({ at: start.at, level: before.level });
    for (const target of contour) offsets.push(target);
    wasSilent = isSilentAfter(onsets[phrase.last]);
  }
  const { base } = options;
  const sum = sumOf(
    curveThrough(typeof base === 'number' ? [{ at: 0, level: base }] : base),
    curveThrough(offsets),
  );
  return heldOverSpreads(sum, onsets);
}

/** What a phrase adds to the base: from its first onset to its end; to its last onset where the next follows at once. */
function contourOf(
  onsets: readonly Struck[],
  phrase: Phrase,
  mean: number,
  options: ShapeOptions,
): readonly Target[] {
  const struck = onsets.slice(phrase.first, phrase.last + 1);
  const from = struck[0]?.tick ?? 0;
  const to = phraseEnd(onsets, phrase);
  const turn = turnAt(((onsets[phrase.peak]?.tick ?? from) - from) / (to - from));
  const levelAt = (tick: number, { velocity }: Struck) =>
    options.arch * (archAt((tick - from) / (to - from), turn) - 0.5) +
    options.velocities * (levelOfVelocity(velocity) - mean);
  const points = struck.map((onset) => ({ at: onset.tick, level: levelAt(onset.tick, onset) }));
  const last = struck.at(-1);
  if (last && isSilentAfter(last)) {
    const decayed = levelAt(last.tick, last) - options.decay;
    points.push({ at: to, level: isLong(last, options) ? decayed : levelAt(to, last) });
  }
  const longs = new Set(
    struck.flatMap((one, index) => (one !== last && isLong(one, options) ? [index] : [])),
  );
  const kept = thin(points, contourTolerance, (index) => longs.has(index) || longs.has(index - 1));
  const places = new Set([...longs].map((index) => points[index]?.at));
  return kept.flatMap((target, index) =>
    places.has(target.at) ? swollen(target, kept[index + 1], options) : [target],
  );
}

/** The tick at which its last note ends, not after the next phrase begins. */
function phraseEnd(onsets: readonly Struck[], phrase: Phrase): number {
  const last = onsets[phrase.last];
  const next = onsets[phrase.last + 1]?.tick ?? Number.POSITIVE_INFINITY;
  return last ? Math.max(last.tick + 1, Math.min(last.endTick, next)) : 0;
}

function isSilentAfter(onset: Struck | undefined): boolean {
  return onset !== undefined && onset.restAfterMs >= heardSilenceMs;
}

function isLong({ heldMs }: Struck, { longMs }: ShapeOptions): boolean {
  return heldMs >= longMs;
}

/** A long note rises to its turn; it comes back with the next onset, which is kept. */
function swollen(target: Target, next: Target | undefined, { swell }: ShapeOptions): readonly Target[] {
  if (!next) return [target];
  const at = Math.round(target.at + swellTurn * (next.at - target.at));
  if (at <= target.at || at >= next.at) return [target];
  return [target, { at, level: Math.max(target.level, next.level) + swell }];
}

/** The contour laid on the base: targets at the knots of both, from the contour's begin to its end. */
function sumOf(base: Curve, contour: Curve): readonly Target[] {
  const first = contour.knots[0] ?? 0;
  const last = contour.knots.at(-1) ?? 0;
  const inside = base.knots.filter((knot) => knot > first && knot < last);
  const knots = [...new Set([...contour.knots, ...inside])].sort((a, b) => a - b);
  return knots.flatMap((at) => {
    const after = { at, level: withinMarks(base.valueAt(at) + contour.valueAt(at)) };
    const before = { at, level: withinMarks(base.valueBefore(at) + contour.valueBefore(at)) };
    return at === first || before.level === after.level ? [after] : [before, after];
  });
}
