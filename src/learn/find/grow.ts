import { features } from '../features.js';
import { nowhere } from './bins.js';
import type { Field } from './gains.js';
import { bestIntervals, sumsByBin } from './interval.js';
import { type Condition, conditionBits, type Problem } from './problem.js';

/** Conditions, all of which must hold, and what they gain. */
export interface Found {
  readonly conditions: readonly Condition[];
  /** Weight of rows got right, less weight of rows got wrong. */
  readonly gain: number;
  /** Gain over the root of what is covered. */
  readonly keenness: number;
  /** How much oftener it gains than the whole field does, over the root of what it changes. */
  readonly lift: number;
  /** Bits saved, less bits of the conditions. */
  readonly worth: number;
}

/** How many conjunctions are kept of each kind while they grow. */
const beam = 3;

/** What may be asked of the search. */
export interface Wish {
  /** Bits that a mistake less is worth. */
  readonly errorWorth: number;
  /** How many conditions may be added. */
  readonly depth: number;
  /** Asks only by these features, where given. */
  readonly only?: (feature: number) => boolean;
  /** `open`: with one bound, never two. */
  readonly sides?: 'open';
}

/**
 * Conjunctions that gain much in a field: the best by bits saved, and the best by gain over the root of cover, which finds
 * small rules that are nearly always right before large ones that are a little better than chance.
 */
export function grow(
  problem: Problem,
  field: Field,
  base: readonly Condition[],
  wish: Wish,
): { readonly worthiest: Found | undefined; readonly keenest: Found | undefined } {
  const all: Found[] = [];
  let kept: readonly { readonly found: Found | undefined; readonly field: Field }[] = [
    { found: undefined, field },
  ];
  for (let depth = 0; depth < wish.depth && kept.length > 0; depth++) {
    const grown = kept.flatMap((state) =>
      bestConditions(problem, state.field, [...base, ...(state.found?.conditions ?? [])], wish, state.found),
    );
    all.push(...grown);
    if (depth + 1 < wish.depth)
      kept = keepBest(grown).map((found) => ({ found, field: narrow(problem, field, found.conditions) }));
  }
  return { worthiest: mostBy(all, ({ worth }) => worth), keenest: keenestOf(all) };
}

/** The keenest that gains at all; a longer one has to be keener by more than chance would make it. */
function keenestOf(all: readonly Found[]): Found | undefined {
  const gaining = all.filter(({ gain }) => gain > 0);
  return mostBy(gaining, ({ keenness, conditions }) => keenness * 0.98 ** conditions.length);
}

function mostBy(all: readonly Found[], measure: (found: Found) => number): Found | undefined {
  let most = -Infinity;
  let found: Found | undefined;
  for (const one of all) {
    const value = measure(one);
    if (value <= most) continue;
    most = value;
    found = one;
  }
  return found;
}

function keepBest(grown: readonly Found[]): readonly Found[] {
  const byWorth = [...grown].sort((a, b) => b.worth - a.worth).slice(0, beam);
  const byKeenness = [...grown].sort((a, b) => b.keenness - a.keenness).slice(0, beam);
  // What gains nothing by itself may gain much with a second condition.
  const byLift = [...grown].sort((a, b) => b.lift - a.lift).slice(0, beam);
  return [...new Set([...byWorth, ...byKeenness, ...byLift])];
}

/** The rows of a field that fit. */
function narrow({ bins }: Problem, field: Field, conditions: readonly Condition[]): Field {
  const kept: number[] = [];
  for (let index = 0; index < field.rows.length; index++) {
    const row = field.rows[index] ?? 0;
    let fits = true;
    for (const { feature, from, below } of conditions) {
      const bin = bins.columns[feature]?.[row] ?? nowhere;
      if (bin === nowhere || bin < from || bin >= below) fits = false;
    }
    if (fits) kept.push(index);
  }
  return {
    rows: Int32Array.from(kept, (index) => field.rows[index] ?? 0),
    gains: Float64Array.from(kept, (index) => field.gains[index] ?? 0),
    weights: Float64Array.from(kept, (index) => field.weights[index] ?? 0),
  };
}

/** The best interval of each feature, added to the conditions found before it. */
function bestConditions(
  problem: Problem,
  field: Field,
  taken: readonly Condition[],
  { errorWorth, only, sides }: Wish,
  before: Found | undefined,
): readonly Found[] {
  const paid = (before?.conditions ?? []).reduce((bits, one) => bits + conditionBits(problem, one), 0);
  return features.flatMap((_, feature) => {
    const cuts = problem.bins.cuts[feature];
    const column = problem.bins.columns[feature];
    if (!cuts || !column || cuts.count === 0 || only?.(feature) === false) return [];
    if (taken.some((one) => one.feature === feature)) return [];
    const sums = sumsByBin(field, column, cuts.count);
    const price = { errorWorth, key: conditionBits(problem, { feature, from: 0, below: nowhere }) };
    return bestIntervals(sums, cuts, price, sides).map(
      ({ from, below, gain, keenness, lift, worth }): Found => ({
        conditions: [...(before?.conditions ?? []), { feature, from, below }],
        gain,
        keenness,
        lift,
        worth: worth - paid,
      }),
    );
  });
}
