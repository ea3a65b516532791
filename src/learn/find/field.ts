import type { Field } from './gains.js';
import { type Problem, type Rung, rightFrom, undecided } from './problem.js';

/** What a rule for an articulation could gain, standing at a place of a ladder, on the rows of a mask. */
export function fieldOf(
  problem: Problem,
  ladder: readonly Rung[],
  at: number,
  label: number,
  mask?: Uint8Array,
): Field {
  return fieldFrom(problem, undecided(problem, ladder, at), rightFrom(problem, ladder, at), label, mask);
}

/** The same for each articulation in turn. */
export function byGain(
  problem: Problem,
  ladder: readonly Rung[],
  at: number,
): readonly { readonly label: number; readonly field: Field }[] {
  const free = undecided(problem, ladder, at);
  const right = rightFrom(problem, ladder, at);
  return problem.classes.flatMap((label) => {
    const field = fieldFrom(problem, free, right, label);
    return field.gains.some((gain) => gain > 0) ? [{ label, field }] : [];
  });
}

function fieldFrom(
  { length, labels, weights }: Problem,
  free: Uint8Array,
  right: Uint8Array,
  label: number,
  mask?: Uint8Array,
): Field {
  const rows = new Int32Array(length);
  const gains = new Float64Array(length);
  const weight = new Float64Array(length);
  let count = 0;
  for (let row = 0; row < length; row++) {
    if (free[row] === 0 || (mask && mask[row] === 0)) continue;
    rows[count] = row;
    weight[count] = weights[row] ?? 0;
    gains[count] = ((labels[row] === label ? 1 : 0) - (right[row] ?? 0)) * (weights[row] ?? 0);
    count++;
  }
  return {
    rows: rows.subarray(0, count),
    gains: gains.subarray(0, count),
    weights: weight.subarray(0, count),
  };
}
