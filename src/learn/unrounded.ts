import { fits, type Ladder, type Test } from './ladder.js';
import type { Material } from './material.js';

/** The bounds of a test as the notes alone would set them, in the feature's unit; null where a side is open. */
export interface Unrounded {
  readonly test: Test;
  readonly from: number | null;
  readonly below: number | null;
}

/** For each rule of a ladder, its bounds before rounding: where most notes come out right, all else being as it is. */
export function unroundedBounds(
  material: Material,
  ladder: Ladder,
  decided: Int32Array,
): readonly (readonly Unrounded[])[] {
  return ladder.map(({ tests }, index) =>
    tests.map((test) => {
      const field = fieldOf(material, ladder, decided, index, test);
      return {
        test,
        from: test.from && bestCut(field, test.from.value, test.below?.value ?? Infinity, 'from'),
        below: test.below && bestCut(field, test.below.value, test.from?.value ?? -Infinity, 'below'),
      };
    }),
  );
}

/** A note that the test alone keeps from the rule, or gives to it: its value, and what giving it gains. */
interface Gain {
  readonly value: number;
  readonly gain: number;
}

function fieldOf(
  { notes, columnOf, labels, weights }: Material,
  ladder: Ladder,
  decided: Int32Array,
  index: number,
  test: Test,
): readonly Gain[] {
  const rule = ladder[index];
  if (!rule) return [];
  const column = columnOf(test.feature);
  const others = rule.tests.filter((one) => one !== test);
  const gains: Gain[] = [];
  for (let row = 0; row < notes.length; row++) {
    const value = column[row] ?? Number.NaN;
    if ((weights[row] ?? 0) === 0 || Number.isNaN(value) || (decided[row] ?? -1) < index) continue;
    if (!others.every((one) => fits(one, columnOf(one.feature)[row] ?? Number.NaN))) continue;
    const else_ = firstAfter(ladder, index, row, columnOf);
    const right = (articulation: number) => (articulation === labels[row] ? (weights[row] ?? 0) : 0);
    gains.push({ value, gain: right(rule.articulation) - right(else_) });
  }
  return gains.sort((a, b) => a.value - b.value);
}

/** What a row would get from the rules below one. */
function firstAfter(ladder: Ladder, index: number, row: number, columnOf: Material['columnOf']): number {
  for (const { tests, articulation } of ladder.slice(index + 1))
    if (tests.every((test) => fits(test, columnOf(test.feature)[row] ?? Number.NaN))) return articulation;
  return -1;
}

/** The middle of the gap between two values where cutting gains most; of equal ones, the nearest to the round bound. */
function bestCut(field: readonly Gain[], round: number, other: number, side: 'from' | 'below'): number {
  const inside = field.filter(({ value }) => (side === 'from' ? value < other : value >= other));
  const whole = inside.reduce((sum, { gain }) => sum + gain, 0);
  let under = 0;
  let most = -Infinity;
  let best = round;
  for (let index = 1; index < inside.length; index++) {
    const before = inside[index - 1];
    const after = inside[index];
    if (!before || !after) continue;
    under += before.gain;
    if (before.value === after.value) continue;
    const gain = side === 'below' ? under : whole - under;
    const cut = Number.isFinite(after.value) ? (before.value + after.value) / 2 : before.value;
    const within = before.value < round && round <= after.value ? round : cut;
    const nearer = Math.abs(within - round) < Math.abs(best - round);
    if (gain > most + 1e-9 || (gain > most - 1e-9 && nearer)) {
      most = Math.max(gain, most);
      best = within;
    }
  }
  return best;
}
