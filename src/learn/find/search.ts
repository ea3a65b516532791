import { type Candidate, candidate, climb, worthOfError } from './climb.js';
import { byGain } from './field.js';
import { type Found, grow } from './grow.js';
import { mostConditions, type Problem, type Rung, rung } from './problem.js';

/** A find less keen than this is as likely chance, whatever else stands in the ladder. */
const leastKeenness = 1.5;

/** How much work a search may be: `full` starts twice and shakes what it found, `quick` does neither. */
export type Effort = 'full' | 'quick';

/** The ladder with the shortest description that was found. Its last rule has no conditions. */
export function searchLadder(problem: Problem, effort: Effort): Candidate {
  const bottom = candidate(problem, [commonest(problem)]);
  const greedy = climb(problem, pruned(problem, covering(problem, bottom)));
  if (effort === 'quick') return greedy;
  const climbed = climb(problem, bottom);
  return shaken(problem, climbed.length < greedy.length ? climbed : greedy);
}

/** A rule without conditions for the articulation that weighs most. */
export function commonest(problem: Problem): Rung {
  const weights = new Map<number, number>();
  for (const label of problem.classes) weights.set(label, 0);
  problem.labels.forEach((label, row) => {
    if (weights.has(label)) weights.set(label, (weights.get(label) ?? 0) + (problem.weights[row] ?? 0));
  });
  const [label = 0] = [...weights].reduce((most, one) => (one[1] > most[1] ? one : most), [-1, -1]);
  return rung(problem, [], label);
}

/** Rules taken off the top one after another, the keenest first, each from what the ones before left over. */
function covering(problem: Problem, bottom: Candidate): Candidate {
  let here = bottom;
  while (here.ladder.length < problem.mostRules) {
    const at = here.ladder.length - 1;
    const wish = { errorWorth: worthOfError(problem, here.errors), depth: mostConditions };
    let keenest: { readonly label: number; readonly found: Found } | undefined;
    for (const { label, field } of byGain(problem, here.ladder, at)) {
      const found = grow(problem, field, [], wish).keenest;
      if (found && found.keenness > (keenest?.found.keenness ?? leastKeenness)) keenest = { label, found };
    }
    if (!keenest) break;
    here = candidate(
      problem,
      here.ladder.toSpliced(at, 0, rung(problem, keenest.found.conditions, keenest.label)),
    );
  }
  return here;
}

/** The shortest of the ladder's own beginnings: a late rule may owe its place to chance. */
function pruned(problem: Problem, { ladder }: Candidate): Candidate {
  const last = ladder.slice(-1);
  return ladder
    .map((_, end) => candidate(problem, [...ladder.slice(0, end), ...last]))
    .reduce((best, one) => (one.length < best.length ? one : best));
}

/** Takes out each rule in turn and climbs again: what two rules did together, others may do better. */
function shaken(problem: Problem, start: Candidate): Candidate {
  let here = start;
  for (let index = 0; index < here.ladder.length - 1; index++) {
    const less = climb(problem, candidate(problem, here.ladder.toSpliced(index, 1)), 'no-insert');
    const other = climb(problem, less);
    if (other.length >= here.length - 1e-6) continue;
    here = other;
  }
  return here;
}
