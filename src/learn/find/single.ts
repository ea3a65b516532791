import { type Candidate, candidate } from './climb.js';
import { fieldOf } from './field.js';
import { grow } from './grow.js';
import { type Problem, rung } from './problem.js';

/** The best ladder of two rules with one bound: what anybody would try first. */
export function bestSingleBound(problem: Problem): Candidate | undefined {
  let best: Candidate | undefined;
  for (const below of problem.classes) {
    const bottom = [rung(problem, [], below)];
    for (const label of problem.classes) {
      if (label === below) continue;
      const field = fieldOf(problem, bottom, 0, label);
      // So dear are mistakes here that bounds cost nothing.
      const { worthiest } = grow(problem, field, [], { errorWorth: 1e6, depth: 1, sides: 'open' });
      if (!worthiest) continue;
      const one = candidate(problem, [rung(problem, worthiest.conditions, label), ...bottom]);
      if (one.errors < (best?.errors ?? Infinity)) best = one;
    }
  }
  return best;
}
