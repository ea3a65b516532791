import type { Feature } from './features.js';
import type { Ladder, Test } from './ladder.js';
import type { LearnNotes } from './notes.js';

/**
 * What another articulation than the note before costs, in nats. This and the cost of a side were measured on 36 movements
 * played by one pianist: the cheapest path is right at .826 of staccato and slurred notes, single bounds at .815.
 */
const changeCost = 4;

/** A note near more bounds than this keeps its side of the later ones: more lie in one band only by design of harm. */
const mostNear = 4;

/** The keys whose bounds a performance hovers around. */
const hovering = new Set([
  'held',
  'held-share',
  'pace',
  'rest-before',
  'rest-after',
  'overlaps-next',
  'overlaps-previous',
]);

/** An articulation that a note may get, the rule that would give it, and what that costs in nats. */
interface Choice {
  readonly rule: number;
  readonly articulation: number;
  readonly cost: number;
}

/**
 * The rule that decides each row when a human hand is allowed for: a measure within the band of a bound may stand on its
 * other side, at −ln of a logistic in ln(bound / measure) / (ln(1 + band) / 3), and the sequence is the cheapest path
 * through each piece. A note beyond the band of every bound on its way down the ladder keeps what the ladder gives.
 *
 * @param band a share of a bound, 0.4 for 40 %; 0 is the plain ladder
 */
export function steadyRules(
  ladder: Ladder,
  notes: LearnNotes,
  columnOf: (feature: Feature) => Float64Array,
  band: number,
): Int32Array {
  const decided = new Int32Array(notes.length);
  let start = 0;
  for (let row = 1; row <= notes.length; row++) {
    if (row < notes.length && notes.piece[row] === notes.piece[start]) continue;
    const choices: (readonly Choice[])[] = [];
    for (let at = start; at < row; at++) choices.push(choicesOf(ladder, at, notes, columnOf, band));
    cheapestPath(choices).forEach((rule, index) => {
      decided[start + index] = rule;
    });
    start = row;
  }
  return decided;
}

/** Every articulation that a row may get, each by its cheapest way down the ladder. */
function choicesOf(
  ladder: Ladder,
  row: number,
  notes: LearnNotes,
  columnOf: (feature: Feature) => Float64Array,
  band: number,
): readonly Choice[] {
  const cheapest = new Map<number, Choice>();
  const width = Math.log(1 + band);
  const sides = new Map<string, boolean>();

  function arrive(rule: number, articulation: number, cost: number): void {
    const known = cheapest.get(articulation);
    if (!known || cost < known.cost) cheapest.set(articulation, { rule, articulation, cost });
  }
  /** Goes on from one bound of one test; a bound met before keeps its side. */
  function descend(rule: number, bound: number, cost: number): void {
    const at = ladder[rule];
    if (!at) return;
    const asked = boundsOf(at.tests)[bound];
    if (!asked) {
      arrive(rule, at.articulation, cost);
      return;
    }
    const next = (above: boolean, more: number) =>
      above === asked.wantsAbove ? descend(rule, bound + 1, cost + more) : descend(rule + 1, 0, cost + more);
    const known = sides.get(asked.name);
    if (known !== undefined) {
      next(known, 0);
      return;
    }
    const near = sides.size < mostNear ? width : 0;
    const possible = sidesOf(asked, measureOf(asked, row, notes, columnOf), near);
    if (possible.length === 0) descend(rule + 1, 0, cost);
    for (const side of possible) {
      if (possible.length > 1) sides.set(asked.name, side.above);
      next(side.above, side.cost);
    }
    sides.delete(asked.name);
  }
  descend(0, 0, 0);
  return [...cheapest.values()];
}

/** The sides of a bound that a measure may be given, with their costs; none where no condition fits it. */
function sidesOf(
  { test }: Asked,
  { value, bound, above }: Measure,
  width: number,
): readonly { readonly above: boolean; readonly cost: number }[] {
  if (Number.isNaN(value)) return [];
  const distance = Math.log(value / bound);
  if (width === 0 || !hovering.has(test.feature.key) || !(Math.abs(distance) <= width))
    return [{ above, cost: 0 }];
  return [true, false].map((side) => ({
    above: side,
    cost: sideCost((side ? distance : -distance) / (width / 3)),
  }));
}

/** −ln of the logistic: the cost of the side that a measure lies on by so much. */
function sideCost(by: number): number {
  return Math.log1p(Math.exp(-by));
}

/** One bound of a test, and whether the test wants what is above it. */
interface Asked {
  readonly test: Test;
  readonly bound: number;
  readonly wantsAbove: boolean;
  readonly name: string;
}

interface Measure {
  readonly value: number;
  readonly bound: number;
  readonly above: boolean;
}

const askedOf = new WeakMap<readonly Test[], readonly Asked[]>();

function boundsOf(tests: readonly Test[]): readonly Asked[] {
  const known = askedOf.get(tests);
  if (known) return known;
  const asked = tests.flatMap((test) => {
    const one = (bound: number, wantsAbove: boolean): Asked => ({
      test,
      bound,
      wantsAbove,
      name: `${test.feature.key} ${test.feature.unit} ${bound}`,
    });
    return [
      ...(test.from ? [one(test.from.value, true)] : []),
      ...(test.below ? [one(test.below.value, false)] : []),
    ];
  });
  askedOf.set(tests, asked);
  return asked;
}

/** A row's value and its bound as lengths; overlapping is a bound of the share that is held, at 100 %. */
function measureOf(
  { test, bound }: Asked,
  row: number,
  notes: LearnNotes,
  columnOf: (feature: Feature) => Float64Array,
): Measure {
  const value = columnOf(test.feature)[row] ?? Number.NaN;
  const above = value >= bound;
  const { key } = test.feature;
  if (key === 'overlaps-next') return { value: notes.heldShare[row] ?? 0, bound: 100, above };
  if (key !== 'overlaps-previous') return { value, bound, above };
  const follows = row > 0 && notes.piece[row] === notes.piece[row - 1];
  return { value: follows ? (notes.heldShare[row - 1] ?? 0) : 0, bound: 100, above };
}

/** The rules of the path with the least cost (Viterbi 1967): each choice's own, and one for each change. */
function cheapestPath(choices: readonly (readonly Choice[])[]): readonly number[] {
  let costs: readonly number[] = choices[0]?.map(({ cost }) => cost) ?? [];
  const from: (readonly number[])[] = [];
  for (let at = 1; at < choices.length; at++) {
    const before = choices[at - 1] ?? [];
    const steps = (choices[at] ?? []).map((choice) => cheapestStep(choice, before, costs));
    from.push(steps.map(({ from: index }) => index));
    costs = steps.map(({ cost }) => cost);
  }
  let index = costs.indexOf(Math.min(...costs));
  const rules: number[] = [];
  for (let at = choices.length - 1; at >= 0; at--) {
    rules.push(choices[at]?.[index]?.rule ?? 0);
    index = from[at - 1]?.[index] ?? 0;
  }
  return rules.reverse();
}

function cheapestStep(
  choice: Choice,
  before: readonly Choice[],
  costs: readonly number[],
): { readonly from: number; readonly cost: number } {
  let from = 0;
  let least = Infinity;
  before.forEach(({ articulation }, index) => {
    const cost = (costs[index] ?? 0) + (articulation === choice.articulation ? 0 : changeCost);
    if (cost >= least) return;
    least = cost;
    from = index;
  });
  return { from, cost: least + choice.cost };
}
