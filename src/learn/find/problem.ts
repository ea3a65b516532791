import { features } from '../features.js';
import type { Bins } from './bins.js';

/** A condition in bins: at least `from` and less than `below`; 0 and the count of cuts + 1 leave a side open. */
export interface Condition {
  readonly feature: number;
  readonly from: number;
  readonly below: number;
}

/** A rule while it is looked for, with the rows that fit it. */
export interface Rung {
  readonly conditions: readonly Condition[];
  readonly label: number;
  /** 1 for each row of the problem that fits all conditions. */
  readonly mask: Uint8Array;
}

/** What is learned from: the rows whose articulation is known. */
export interface Problem {
  readonly length: number;
  readonly bins: Bins;
  /** The articulation of each row. */
  readonly labels: Int32Array;
  /** What each row counts; they sum up to how many independent rows they are worth. */
  readonly weights: Float64Array;
  readonly total: number;
  /** The articulations that may be learned. */
  readonly classes: readonly number[];
  /** The most rules that a ladder may have, the last included. */
  readonly mostRules: number;
}

/** The most conditions of a rule: more cannot be remembered. */
export const mostConditions = 3;

/** How dear a map is against its mistakes; 1 is a code that wastes nothing, more keeps chance finds out. */
const strictness = 1.15;

/** Bits to write a condition: its key and its bounds. */
export function conditionBits({ bins }: Problem, { feature, from, below }: Condition): number {
  const cuts = bins.cuts[feature];
  const key = features[feature]?.price ?? 0;
  const bounds =
    (cuts?.fromBits[from] ?? 0) + (below <= (cuts?.count ?? 0) ? (cuts?.belowBits[below] ?? 0) : 0);
  return key + 1 + bounds;
}

/** Bits to write a rule, without its conditions. */
export function ruleBits({ classes }: Problem): number {
  return 1 + Math.log2(Math.max(2, classes.length));
}

/** Bits to write which rows are wrong, and what they are instead. */
export function errorBits({ total, classes }: Problem, errors: number): number {
  // Never quite 0: nobody is sure from a few notes.
  const share = Math.min(0.5, (errors + 0.5) / (total + 1));
  const entropy = -share * Math.log2(share) - (1 - share) * Math.log2(1 - share);
  const which = errors * Math.log2(Math.max(1, classes.length - 1));
  return (total * entropy + which + Math.max(0, errors - total / 2)) / strictness;
}

/** Bits for the whole ladder and its mistakes: the less, the better. */
export function descriptionLength(problem: Problem, ladder: readonly Rung[], errors: number): number {
  return ladderBits(problem, ladder) + errorBits(problem, errors);
}

export function ladderBits(problem: Problem, ladder: readonly Rung[]): number {
  return ladder.reduce(
    (sum, { conditions }) =>
      sum + ruleBits(problem) + conditions.reduce((bits, one) => bits + conditionBits(problem, one), 0),
    0,
  );
}

/** The weights as those of a problem: summing up to the number of even rows that are worth as much (Kish 1965, memory). */
export function evened(weights: Float64Array): { readonly weights: Float64Array; readonly total: number } {
  let sum = 0;
  let squares = 0;
  for (const weight of weights) {
    sum += weight;
    squares += weight * weight;
  }
  const total = squares > 0 ? (sum * sum) / squares : 0;
  const scale = sum > 0 ? total / sum : 0;
  return { weights: weights.map((weight) => weight * scale), total };
}

/** A part of the rows of some notes as a problem. */
export function problemOf(
  bins: Bins,
  rows: Int32Array,
  labels: Int32Array,
  weights: Float64Array,
  { classes, mostRules }: Pick<Problem, 'classes' | 'mostRules'>,
): Problem {
  return {
    length: rows.length,
    bins: { cuts: bins.cuts, columns: bins.columns.map((column) => taken(column, rows)) },
    labels: Int32Array.from(rows, (row) => labels[row] ?? -1),
    ...evened(Float64Array.from(rows, (row) => weights[row] ?? 0)),
    classes,
    mostRules,
  };
}

function taken(column: Uint8Array, rows: Int32Array): Uint8Array {
  const some = new Uint8Array(rows.length);
  for (let index = 0; index < rows.length; index++) some[index] = column[rows[index] ?? 0] ?? 255;
  return some;
}

export function rung(problem: Problem, conditions: readonly Condition[], label: number): Rung {
  const mask = new Uint8Array(problem.length).fill(1);
  for (const condition of conditions) keepFitting(problem, condition, mask);
  return { conditions, label, mask };
}

function keepFitting({ bins, length }: Problem, { feature, from, below }: Condition, mask: Uint8Array): void {
  const column = bins.columns[feature];
  if (!column) return;
  for (let row = 0; row < length; row++) {
    const bin = column[row] ?? 255;
    if (bin === 255 || bin < from || bin >= below) mask[row] = 0;
  }
}

/** 1 for each row that the rules before `end` leave undecided. */
export function undecided(problem: Problem, ladder: readonly Rung[], end: number): Uint8Array {
  const free = new Uint8Array(problem.length).fill(1);
  for (const { mask } of ladder.slice(0, end))
    for (let row = 0; row < problem.length; row++) if (mask[row] === 1) free[row] = 0;
  return free;
}

/** 1 for each row that the rules from `first` on give its own articulation. */
export function rightFrom({ length, labels }: Problem, ladder: readonly Rung[], first: number): Uint8Array {
  const right = new Uint8Array(length);
  // From the bottom up: what stands above overrules.
  for (let index = ladder.length - 1; index >= first; index--) {
    const one = ladder[index];
    if (!one) continue;
    const { mask, label } = one;
    for (let row = 0; row < length; row++) if (mask[row] === 1) right[row] = labels[row] === label ? 1 : 0;
  }
  return right;
}

/** The weight of the rows that the ladder gets wrong. */
export function errorsOf(problem: Problem, ladder: readonly Rung[]): number {
  const right = rightFrom(problem, ladder, 0);
  let errors = 0;
  for (let row = 0; row < problem.length; row++) if (right[row] === 0) errors += problem.weights[row] ?? 0;
  return errors;
}
