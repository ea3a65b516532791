import type { Bound } from '../bounds.js';
import { type Feature, features } from '../features.js';
import type { LearnNotes } from '../notes.js';

/** The bin of a row that no condition of the feature fits. */
export const nowhere = 255;

/**
 * Where a feature's values may be cut: cut k, from 1 to `count`, lies between the bins k − 1 and k. Between two bins
 * that have notes several bounds may do; the roundest stands for all.
 */
export interface Cuts {
  readonly count: number;
  /** The bound of each cut where it is written `from`, and its bits; index 0 is not used. */
  readonly from: readonly Bound[];
  readonly fromBits: Float64Array;
  /** The same where it is written `below` (or `to`: one less). */
  readonly below: readonly Bound[];
  readonly belowBits: Float64Array;
}

/** All features of all rows, as numbers of bins. */
export interface Bins {
  readonly cuts: readonly Cuts[];
  readonly columns: readonly Uint8Array[];
}

/** Lays every feature's values between human bounds. */
export function layIntoBins(notes: LearnNotes, columnOf: (feature: Feature) => Float64Array): Bins {
  const laid = features.map((feature) => layFeature(feature, columnOf(feature), notes.length));
  return { cuts: laid.map(({ cuts }) => cuts), columns: laid.map(({ column }) => column) };
}

function layFeature(
  feature: Feature,
  values: Float64Array,
  length: number,
): { readonly cuts: Cuts; readonly column: Uint8Array } {
  const raw = new Uint8Array(length);
  for (let row = 0; row < length; row++) raw[row] = binOf(feature.bounds, values[row] ?? Number.NaN);
  const present = [...new Set(raw)].filter((bin) => bin !== nowhere).sort((a, b) => a - b);
  const rank = new Uint8Array(256).fill(nowhere);
  present.forEach((bin, index) => {
    rank[bin] = index;
  });
  return { cuts: cutsBetween(present, feature), column: raw.map((bin) => rank[bin] ?? nowhere) };
}

/** How many bounds lie at or under the value. */
function binOf(bounds: readonly Bound[], value: number): number {
  if (Number.isNaN(value)) return nowhere;
  let low = 0;
  let high = bounds.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((bounds[middle]?.value ?? Infinity) <= value) low = middle + 1;
    else high = middle;
  }
  return low;
}

function cutsBetween(present: readonly number[], feature: Feature): Cuts {
  const bits = bitsOfTiers(feature.bounds);
  // `to: 63` is written for what is below 64: it is 63 that should be round.
  const belowTier = feature.unit === 'number' ? tierOfOneLess(feature.bounds) : (bound: Bound) => bound.tier;
  const from: Bound[] = [];
  const below: Bound[] = [];
  const fromBits: number[] = [0];
  const belowBits: number[] = [0];
  for (let cut = 1; cut < present.length; cut++) {
    const gap = feature.bounds.slice(present[cut - 1], present[cut]);
    const first = gap[0];
    if (!first) continue;
    from[cut] = roundest(gap, first, (bound) => bound.tier);
    below[cut] = roundest(gap, first, belowTier);
    fromBits[cut] = bits[from[cut]?.tier ?? 0] ?? 0;
    belowBits[cut] = bits[belowTier(below[cut] ?? first)] ?? 0;
  }
  return {
    count: Math.max(0, present.length - 1),
    from,
    below,
    fromBits: Float64Array.from(fromBits),
    belowBits: Float64Array.from(belowBits),
  };
}

/** Bits for a bound of each tier: one for each tier before it and its own, and to say which of the tier it is. */
function bitsOfTiers(bounds: readonly Bound[]): readonly number[] {
  if (bounds.length === 1) return [0];
  return [0, 1, 2, 3].map((tier) => {
    const many = bounds.filter((bound) => bound.tier === tier).length;
    return tier + 1 + Math.log2(Math.max(1, many));
  });
}

function tierOfOneLess(bounds: readonly Bound[]): (bound: Bound) => number {
  const tiers = new Map(bounds.map(({ value, tier }) => [value, tier]));
  return ({ value }) => tiers.get(value - 1) ?? 0;
}

/** The roundest bound of a gap; of several, the one nearest to its middle. */
function roundest(gap: readonly Bound[], first: Bound, tierOf: (bound: Bound) => number): Bound {
  const middle = (gap.length - 1) / 2;
  let best = first;
  let least = Infinity;
  gap.forEach((bound, index) => {
    const cost = tierOf(bound) * 1000 + Math.abs(index - middle);
    if (cost < least) {
      least = cost;
      best = bound;
    }
  });
  return best;
}
