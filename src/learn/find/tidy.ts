import { features } from '../features.js';
import { type Candidate, candidate, climb, worthOfError } from './climb.js';
import { fieldOf } from './field.js';
import { grow } from './grow.js';
import { sumsByBin } from './interval.js';
import {
  type Condition,
  conditionBits,
  errorsOf,
  type Problem,
  type Rung,
  rung,
  undecided,
} from './problem.js';

/** A rule that decides less of the notes than this is not worth reading. */
const leastShare = 0.005;

/** What may be lost of all notes to make a bound round, or to ask by `held-share` in place of `held`. */
const mayLose = 0.001;

/** What may be lost to get rid of a bound that nobody would write. */
const mayLoseFine = 0.005;

/** The tier of such bounds. */
const fine = 3;

/** The ladder as a human would write it: no tiny rules, shares before times, round bounds. */
export function tidy(problem: Problem, found: Candidate): Candidate {
  const large = withoutTinyRules(problem, found);
  const shared = sharesFirst(problem, large);
  return climb(problem, rounded(problem, shared), 'shorten');
}

/** Drops rules that decide almost nothing, save the only rule of an articulation. */
function withoutTinyRules(problem: Problem, found: Candidate): Candidate {
  const kept = found.ladder.filter(({ label, conditions, mask }, index) => {
    if (conditions.length === 0) return true;
    const free = undecided(problem, found.ladder, index);
    let weight = 0;
    for (let row = 0; row < problem.length; row++)
      if (free[row] === 1 && mask[row] === 1) weight += problem.weights[row] ?? 0;
    return (
      weight >= leastShare * problem.total || found.ladder.filter((one) => one.label === label).length === 1
    );
  });
  return candidate(problem, kept);
}

const heldShare = features.findIndex(({ key }) => key === 'held-share');

/** Asks by the share of the interval where that serves as well as a held time. */
function sharesFirst(problem: Problem, found: Candidate): Candidate {
  let here = found;
  found.ladder.forEach(({ conditions, label }, index) => {
    const at = conditions.findIndex(({ feature }) => features[feature]?.key === 'held');
    if (at < 0 || conditions.some(({ feature }) => feature === heldShare)) return;
    const kept = conditions.toSpliced(at, 1);
    const without = here.ladder.toSpliced(index, 1);
    const field = fieldOf(problem, without, index, label, rung(problem, kept, label).mask);
    const errorWorth = worthOfError(problem, errorsOf(problem, without));
    const wish = { errorWorth, depth: 1, only: (feature: number) => feature === heldShare };
    const { worthiest } = grow(problem, field, kept, wish);
    if (!worthiest) return;
    const rule = rung(problem, [...worthiest.conditions, ...kept], label);
    const other = candidate(problem, without.toSpliced(index, 0, rule));
    if (other.errors <= here.errors + mayLose * problem.total) here = other;
  });
  return here;
}

/** Moves every bound to the roundest that loses next to nothing. */
function rounded(problem: Problem, found: Candidate): Candidate {
  let ladder = found.ladder;
  found.ladder.forEach(({ conditions }, index) => {
    conditions.forEach((_, at) => {
      ladder = roundedCondition(problem, ladder, index, at);
    });
  });
  return candidate(problem, ladder);
}

function roundedCondition(
  problem: Problem,
  ladder: readonly Rung[],
  index: number,
  at: number,
): readonly Rung[] {
  const rule = ladder[index];
  const condition = rule?.conditions[at];
  const cuts = condition && problem.bins.cuts[condition.feature];
  const column = condition && problem.bins.columns[condition.feature];
  if (!rule || !condition || !cuts || !column) return ladder;
  const others = rule.conditions.toSpliced(at, 1);
  const without = ladder.toSpliced(index, 1);
  const field = fieldOf(problem, without, index, rule.label, rung(problem, others, rule.label).mask);
  const { gains } = sumsByBin(field, column, cuts.count);
  const gainOf = ({ from, below }: Condition) => (gains[below] ?? 0) - (gains[from] ?? 0);
  const tierOf = ({ from, below }: Condition) =>
    Math.max(cuts.from[from]?.tier ?? 0, cuts.below[below]?.tier ?? 0);
  const moved = [...otherBounds(condition, cuts.count)];
  const start = written(condition, moved, tierOf, gainOf, mayLoseFine * problem.total);
  const least = gainOf(start) - mayLose * problem.total;
  let best = start;
  for (const other of otherBounds(start, cuts.count)) {
    if (gainOf(other) < least) continue;
    const bits = conditionBits(problem, other) - conditionBits(problem, best);
    if (bits < 0 || (bits === 0 && gainOf(other) > gainOf(best))) best = other;
  }
  if (best === condition) return ladder;
  return ladder.with(index, rung(problem, rule.conditions.with(at, best), rule.label));
}

/** The condition itself, or the best near it that a human would write, where its bounds are fine. */
function written(
  condition: Condition,
  others: readonly Condition[],
  tierOf: (condition: Condition) => number,
  gainOf: (condition: Condition) => number,
  mayLose: number,
): Condition {
  if (tierOf(condition) < fine) return condition;
  const round = others.filter(
    (other) => tierOf(other) < fine && gainOf(other) >= gainOf(condition) - mayLose,
  );
  return round.reduce(
    (best, one) => (best === condition || gainOf(one) > gainOf(best) ? one : best),
    condition,
  );
}

/** The same condition with one bound moved, never opened. */
function* otherBounds(condition: Condition, count: number): Iterable<Condition> {
  const { from, below } = condition;
  if (from > 0) for (let cut = 1; cut < Math.min(below, count + 1); cut++) yield { ...condition, from: cut };
  if (below <= count) for (let cut = from + 1; cut <= count; cut++) yield { ...condition, below: cut };
}
