import { byGain, fieldOf } from './field.js';
import { type Found, grow } from './grow.js';
import {
  type Condition,
  descriptionLength,
  errorBits,
  errorsOf,
  ladderBits,
  mostConditions,
  type Problem,
  type Rung,
  rung,
} from './problem.js';

/** A ladder with its mistakes and its description length. */
export interface Candidate {
  readonly ladder: readonly Rung[];
  readonly errors: number;
  readonly length: number;
}

export function candidate(problem: Problem, ladder: readonly Rung[]): Candidate {
  const errors = errorsOf(problem, ladder);
  return { ladder, errors, length: descriptionLength(problem, ladder, errors) };
}

/** Bits that a mistake less is worth, on the way from these mistakes to half of them. */
export function worthOfError(problem: Problem, errors: number): number {
  const fewer = errors / 2;
  return errors <= 0 ? 0 : (errorBits(problem, errors) - errorBits(problem, fewer)) / (errors - fewer);
}

/** A better ladder than the one given, or undefined where none is a step away. */
type Step = (problem: Problem, from: Candidate) => Candidate | undefined;

/** Which steps are taken: all, those that add no rule, those that keep to its rules, or only those that take something away. */
export type Reach = 'all' | 'no-insert' | 'settle' | 'shorten';

/** The steps of the local search, the cheap ones first. */
const steps: Readonly<Record<Reach, readonly Step[]>> = {
  all: [deleteRule, dropCondition, replaceCondition, moveRule, addCondition, relabel, insertRule],
  'no-insert': [deleteRule, dropCondition, replaceCondition, moveRule, addCondition, relabel],
  settle: [deleteRule, dropCondition, replaceCondition],
  shorten: [deleteRule, dropCondition],
};

/** More steps than any search was seen to take. */
const mostSteps = 200;

/** Takes steps while one of them shortens the description. */
export function climb(problem: Problem, start: Candidate, reach: Reach = 'all'): Candidate {
  let here = start;
  for (let step = 0; step < mostSteps; step++) {
    const better = firstBetter(problem, here, steps[reach]);
    if (!better) return here;
    here = better;
  }
  return here;
}

function firstBetter(problem: Problem, here: Candidate, allowed: readonly Step[]): Candidate | undefined {
  for (const step of allowed) {
    const better = step(problem, here);
    if (better) return better;
  }
  return undefined;
}

/** The best of some ladders, where it beats the one at hand. */
function best(problem: Problem, here: Candidate, ladders: Iterable<readonly Rung[]>): Candidate | undefined {
  let found: Candidate | undefined;
  for (const ladder of ladders) {
    const one = candidate(problem, ladder);
    if (one.length < (found?.length ?? here.length - 1e-6)) found = one;
  }
  return found;
}

function deleteRule(problem: Problem, here: Candidate): Candidate | undefined {
  return best(
    problem,
    here,
    here.ladder.slice(0, -1).map((_, index) => here.ladder.toSpliced(index, 1)),
  );
}

function dropCondition(problem: Problem, here: Candidate): Candidate | undefined {
  const ladders = here.ladder.flatMap(({ conditions, label }, index) =>
    conditions.length < 2
      ? []
      : conditions.map((_, at) => here.ladder.with(index, rung(problem, conditions.toSpliced(at, 1), label))),
  );
  return best(problem, here, ladders);
}

function moveRule(problem: Problem, here: Candidate): Candidate | undefined {
  const last = here.ladder.length - 1;
  const ladders = here.ladder.slice(0, -1).flatMap((moved, from) =>
    Array.from({ length: last }, (_, to) => to)
      .filter((to) => to !== from && to !== from - 1)
      .map((to) => here.ladder.toSpliced(from, 1).toSpliced(to, 0, moved)),
  );
  return best(problem, here, ladders);
}

function relabel(problem: Problem, here: Candidate): Candidate | undefined {
  const ladders = here.ladder.flatMap((one, index) =>
    problem.classes
      .filter((label) => label !== one.label)
      .map((label) => here.ladder.with(index, { ...one, label })),
  );
  return best(problem, here, ladders);
}

/** Lets one condition of one rule go, and puts the best in its place: another bound, or another key. */
function replaceCondition(problem: Problem, here: Candidate): Candidate | undefined {
  return best(
    problem,
    here,
    here.ladder.flatMap((one, index) =>
      one.conditions.flatMap((_, at) => refine(problem, here, index, one.conditions.toSpliced(at, 1))),
    ),
  );
}

function addCondition(problem: Problem, here: Candidate): Candidate | undefined {
  return best(
    problem,
    here,
    here.ladder
      .slice(0, -1)
      .flatMap((one, index) =>
        one.conditions.length >= mostConditions ? [] : refine(problem, here, index, one.conditions),
      ),
  );
}

/** The rule at an index with some of its conditions, and the best that can be added to them. */
function refine(
  problem: Problem,
  here: Candidate,
  index: number,
  kept: readonly Condition[],
): readonly (readonly Rung[])[] {
  const label = here.ladder[index]?.label ?? 0;
  const without = here.ladder.toSpliced(index, 1);
  const errors = errorsOf(problem, without);
  const field = fieldOf(problem, without, index, label, rung(problem, kept, label).mask);
  const { worthiest } = grow(problem, field, kept, { errorWorth: worthOfError(problem, errors), depth: 1 });
  if (!worthiest) return [];
  return [without.toSpliced(index, 0, rung(problem, [...kept, ...worthiest.conditions], label))];
}

/** The best new rule at any place of the ladder. */
function insertRule(problem: Problem, here: Candidate): Candidate | undefined {
  if (here.ladder.length >= problem.mostRules) return undefined;
  const errorWorth = worthOfError(problem, here.errors);
  let most = 0;
  let found: { readonly at: number; readonly label: number; readonly rule: Found } | undefined;
  for (let at = 0; at < here.ladder.length; at++) {
    for (const { label, field } of byGain(problem, here.ladder, at)) {
      const { worthiest } = grow(problem, field, [], { errorWorth, depth: mostConditions });
      if (!worthiest) continue;
      const saved = savedBy(problem, here, worthiest);
      if (saved <= most) continue;
      most = saved;
      found = { at, label, rule: worthiest };
    }
  }
  if (!found) return undefined;
  const { at, label, rule } = found;
  return best(problem, here, [here.ladder.toSpliced(at, 0, rung(problem, rule.conditions, label))]);
}

function savedBy(problem: Problem, here: Candidate, { gain, conditions }: Found): number {
  const added = ladderBits(problem, [{ conditions, label: 0, mask: new Uint8Array() }]);
  return errorBits(problem, here.errors) - errorBits(problem, Math.max(0, here.errors - gain)) - added;
}
