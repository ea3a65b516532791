import {
  type Candidate,
  candidate,
  climb,
  commonest,
  type Effort,
  type Problem,
  problemOf,
  type Rung,
  rung,
  searchLadder,
  tidy,
  translate,
} from './find/index.js';
import { articulationsOf, decideRules, type Ladder } from './ladder.js';
import type { Material } from './material.js';
import { staleWeights } from './stale.js';

/** With more rows than this, rules are looked for in an even selection, and their bounds found in all. */
const mostSearched = { full: 5000, quick: 2500 } as const;

/** More than this share of the exceptions must go on with what sounded before for switches to count as forgotten. */
const goingOn = 0.85;

/** Fewer exceptions than this share of the notes are not worth another search. */
const fewExceptions = 0.03;

/** A ladder found, and whether the labels look as if switches had been forgotten. */
export interface Fit {
  readonly ladder: Ladder;
  readonly forgetful: boolean;
}

/**
 * The ladder that describes some rows best. Where exceptions mostly go on with what sounded before, it is looked for again
 * with less weight on notes long after a switch, which may be stale.
 */
export function fitLadder(material: Material, rows: Int32Array, effort: Effort): Fit {
  const even = fitWeighted(material, rows, material.weights, 'quick');
  if (looksForgetful(material, rows, even))
    return { ladder: fitWeighted(material, rows, believed(material), effort), forgetful: true };
  return {
    ladder: effort === 'quick' ? even : fitWeighted(material, rows, material.weights, effort),
    forgetful: false,
  };
}

/** The ladder of a part of the rows, once it is known whether switches were forgotten. */
export function fitPart(material: Material, rows: Int32Array, forgetful: boolean): Ladder {
  return fitWeighted(material, rows, forgetful ? believed(material) : material.weights, 'quick');
}

function believed(material: Material): Float64Array {
  const stale = staleWeights(material);
  return material.weights.map((weight, row) => weight * (stale[row] ?? 1));
}

function fitWeighted(material: Material, rows: Int32Array, weights: Float64Array, effort: Effort): Ladder {
  const { bins, labels, classes } = material;
  const all = problemOf(bins, rows, labels, weights, material);
  if (classes.length === 1) return translate(bins, [commonest(all)]);
  const step = Math.ceil(rows.length / mostSearched[effort]);
  if (step <= 1) return translate(bins, tidy(all, searchLadder(all, effort)).ladder);
  const some = problemOf(
    bins,
    rows.filter((_, index) => index % step === 0),
    labels,
    weights,
    material,
  );
  return translate(bins, tidy(all, settle(all, searchLadder(some, effort).ladder)).ladder);
}

/** The bounds of a ladder that was found in a selection, found again in all rows. */
function settle(problem: Problem, found: readonly Rung[]): Candidate {
  const start = candidate(
    problem,
    found.map(({ conditions, label }) => rung(problem, conditions, label)),
  );
  return problem.length > 20_000 ? climb(problem, start, 'shorten') : climb(problem, start, 'settle');
}

function looksForgetful({ notes, columnOf, labels }: Material, rows: Int32Array, ladder: Ladder): boolean {
  const says = articulationsOf(ladder, decideRules(ladder, notes.length, columnOf));
  let exceptions = 0;
  let same = 0;
  for (const row of rows) {
    if (says[row] === labels[row]) continue;
    exceptions++;
    if (row > 0 && labels[row] === labels[row - 1]) same++;
  }
  return exceptions > fewExceptions * rows.length && same > goingOn * exceptions;
}
