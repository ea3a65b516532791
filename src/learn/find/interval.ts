import { type Cuts, nowhere } from './bins.js';
import type { Field } from './gains.js';

/** Running sums over the bins: index b has all bins before b. */
export interface Sums {
  readonly gains: Float64Array;
  /** Gains and losses alike. */
  readonly changes: Float64Array;
  readonly weights: Float64Array;
}

/** @param cuts how many; there is one bin more */
export function sumsByBin({ rows, gains, weights }: Field, column: Uint8Array, cuts: number): Sums {
  const gainOf = new Float64Array(cuts + 2);
  const changeOf = new Float64Array(cuts + 2);
  const weightOf = new Float64Array(cuts + 2);
  for (let index = 0; index < rows.length; index++) {
    const bin = (column[rows[index] ?? 0] ?? nowhere) + 1;
    if (bin > cuts + 1) continue;
    const gain = gains[index] ?? 0;
    gainOf[bin] = (gainOf[bin] ?? 0) + gain;
    changeOf[bin] = (changeOf[bin] ?? 0) + Math.abs(gain);
    weightOf[bin] = (weightOf[bin] ?? 0) + (weights[index] ?? 0);
  }
  for (const sums of [gainOf, changeOf, weightOf])
    for (let bin = 1; bin <= cuts + 1; bin++) sums[bin] = (sums[bin] ?? 0) + (sums[bin - 1] ?? 0);
  return { gains: gainOf, changes: changeOf, weights: weightOf };
}

export interface Interval {
  readonly from: number;
  readonly below: number;
  readonly gain: number;
  /** Gain over the root of what is covered. */
  readonly keenness: number;
  /** How much oftener it gains than the whole field does, over the root of what it changes. */
  readonly lift: number;
  /** Bits saved, less bits of the condition. */
  readonly worth: number;
}

/** What a mistake less is worth, and what the key costs. Unit: bits. */
export interface Price {
  readonly errorWorth: number;
  readonly key: number;
}

/** A cut and the side of it that is meant; the best by some measure so far. */
interface Best {
  value: number;
  from: number;
  below: number;
}

/** The interval that saves most, and of those open on one side the one that is keenest and the one that lifts most. */
export function bestIntervals(sums: Sums, cuts: Cuts, price: Price, sides?: 'open'): readonly Interval[] {
  const end = cuts.count + 1;
  const measure = measureIn(sums, cuts, price);
  const worthiest: Best = { value: -Infinity, from: 0, below: 1 };
  const keenest: Best = { ...worthiest };
  const lifting: Best = { ...worthiest };
  for (let side = 0; side < 2; side++) {
    for (let cut = 1; cut < end; cut++) {
      const from = side === 0 ? 0 : cut;
      const below = side === 0 ? cut : end;
      keep(worthiest, measure.worth(from, below), from, below);
      keep(keenest, measure.keenness(from, below), from, below);
      keep(lifting, measure.lift(from, below), from, below);
    }
  }
  if (sides !== 'open') bestInside(sums.gains, cuts, price, worthiest);
  return [worthiest, keenest, lifting]
    .filter(
      ({ from, below }, index, all) =>
        all.findIndex((one) => one.from === from && one.below === below) === index,
    )
    .map(({ from, below }) => ({
      from,
      below,
      gain: measure.gain(from, below),
      keenness: measure.keenness(from, below),
      lift: measure.lift(from, below),
      worth: measure.worth(from, below),
    }));
}

function keep(best: Best, value: number, from: number, below: number): void {
  if (value <= best.value) return;
  best.value = value;
  best.from = from;
  best.below = below;
}

type Measure = (from: number, below: number) => number;

function measureIn(
  sums: Sums,
  cuts: Cuts,
  { errorWorth, key }: Price,
): { readonly gain: Measure; readonly keenness: Measure; readonly lift: Measure; readonly worth: Measure } {
  const end = cuts.count + 1;
  const usual = (sums.gains[end] ?? 0) / Math.max(1e-9, sums.changes[end] ?? 0);
  const between = (of: Float64Array, from: number, below: number) => (of[below] ?? 0) - (of[from] ?? 0);
  const gain: Measure = (from, below) => between(sums.gains, from, below);
  return {
    gain,
    keenness: (from, below) =>
      gain(from, below) / Math.sqrt(Math.max(between(sums.weights, from, below), 1e-9)),
    lift(from, below) {
      const changed = between(sums.changes, from, below);
      return (gain(from, below) - usual * changed) / Math.sqrt(Math.max(changed, 1e-9));
    },
    worth(from, below) {
      const bounds = (cuts.fromBits[from] ?? 0) + (below < end ? (cuts.belowBits[below] ?? 0) : 0);
      return gain(from, below) * errorWorth - key - bounds;
    },
  };
}

/** Looks for an interval with two bounds that is worth more. It begins and ends with a bin that gains. */
function bestInside(
  gains: Float64Array,
  { count, fromBits, belowBits }: Cuts,
  { errorWorth, key }: Price,
  best: Best,
): void {
  const gaining = (bin: number) => (gains[bin + 1] ?? 0) > (gains[bin] ?? 0);
  const ends: number[] = [];
  for (let below = 2; below <= count; below++) if (gaining(below - 1)) ends.push(below);
  const values = Float64Array.from(
    ends,
    (below) => (gains[below] ?? 0) * errorWorth - (belowBits[below] ?? 0),
  );
  const highest = highestFromEach(values);
  let first = 0;
  for (let from = 1; from < count; from++) {
    if (!gaining(from)) continue;
    while ((ends[first] ?? Infinity) <= from) first++;
    const start = (gains[from] ?? 0) * errorWorth + (fromBits[from] ?? 0) + key;
    if (!((highest[first] ?? -Infinity) - start > best.value)) continue;
    for (let index = first; index < ends.length; index++)
      keep(best, (values[index] ?? 0) - start, from, ends[index] ?? 0);
  }
}

/** The highest of some values from each of them on. */
function highestFromEach(values: Float64Array): Float64Array {
  const highest = values.slice();
  for (let index = values.length - 2; index >= 0; index--)
    highest[index] = Math.max(highest[index] ?? 0, highest[index + 1] ?? 0);
  return highest;
}
