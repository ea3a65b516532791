import { bestSingleBound, commonest, problemOf, translate } from './find/index.js';
import { fitPart } from './fit.js';
import { articulationsOf, decideRules, type Ladder } from './ladder.js';
import { countingRows, type Material } from './material.js';
import type { LearnNotes } from './notes.js';
import { steadyRules } from './steadiness.js';

const folds = 5;

/** A phrase begins after this much silence. Unit: ms. */
const phraseRest = 300;
const shortestPhrase = 8;
const longestPhrase = 40;

/** Phrases of music that is switched by section last for so many sections, so that a section is not in two folds. */
const sections = 3;

/** Shares of held-out notes that are right, each between 0 and 1. */
export interface HeldOut {
  /** What was held out together. */
  readonly by: 'piece' | 'phrase';
  readonly accuracy: number;
  readonly commonest: number;
  readonly singleBound: number;
}

/** Learns five times from four fifths and asks about the rest: what can be expected of notes that were not seen. */
export function holdOut(material: Material, steadiness: number, forgetful: boolean): HeldOut {
  const { by, fold } = foldsOf(material);
  const right = { ladder: 0, commonest: 0, single: 0 };
  let total = 0;
  for (let out = 0; out < folds; out++) {
    const test = countingRows(material, (row) => fold[row] === out);
    const rest = countingRows(material, (row) => fold[row] !== out);
    if (test.length === 0 || rest.length === 0) continue;
    const ladder = fitPart(material, rest, forgetful);
    const { bottom, single } = plainLadders(material, rest);
    for (const row of test) total += material.weights[row] ?? 0;
    right.ladder += weightRight(material, test, ladder, steadiness);
    right.commonest += weightRight(material, test, bottom, 0);
    right.single += weightRight(material, test, single, 0);
  }
  const share = (weight: number) => (total > 0 ? weight / total : 0);
  return {
    by,
    accuracy: share(right.ladder),
    commonest: share(right.commonest),
    singleBound: share(right.single),
  };
}

/** The two ladders that anybody could write: the commonest articulation alone, and with the best single bound. */
export function plainLadders(
  material: Material,
  rows: Int32Array,
): { readonly bottom: Ladder; readonly single: Ladder } {
  const { bins, labels, weights } = material;
  const problem = problemOf(bins, rows, labels, weights, material);
  const even = weights.map((weight) => (weight > 0 ? 1 : 0));
  const bottom = translate(bins, [commonest(problemOf(bins, rows, labels, even, material))]);
  const single = bestSingleBound(problem);
  return { bottom, single: single ? translate(bins, single.ladder) : bottom };
}

/** The weight of the rows that a ladder gets right. */
export function weightRight(
  material: Material,
  rows: Int32Array,
  ladder: Ladder,
  steadiness: number,
): number {
  const { notes, columnOf, labels, weights } = material;
  const rules =
    steadiness > 0
      ? steadyRules(ladder, notes, columnOf, steadiness)
      : decideRules(ladder, notes.length, columnOf);
  const says = articulationsOf(ladder, rules);
  let right = 0;
  for (const row of rows) if (says[row] === labels[row]) right += weights[row] ?? 0;
  return right;
}

/** Whole pieces where there are enough, else whole phrases, dealt out so that folds are of one size. */
function foldsOf({ notes, labels, weights }: Material): {
  readonly by: HeldOut['by'];
  readonly fold: Uint8Array;
} {
  const by = new Set(Array.from(countingPieces(notes, weights))).size >= folds ? 'piece' : 'phrase';
  const block =
    by === 'piece'
      ? Int32Array.from(notes.piece)
      : phrasesOf(notes, Math.max(longestPhrase, sections * meanSection(labels)));
  const sizes = new Map<number, number>();
  block.forEach((one, row) => {
    sizes.set(one, (sizes.get(one) ?? 0) + ((weights[row] ?? 0) > 0 ? 1 : 0));
  });
  const filled = new Array<number>(folds).fill(0);
  const foldOf = new Map<number, number>();
  const largestFirst = [...sizes].sort((a, b) => b[1] - a[1] || a[0] - b[0]);
  for (const [one, size] of largestFirst) {
    const least = filled.indexOf(Math.min(...filled));
    foldOf.set(one, least);
    filled[least] = (filled[least] ?? 0) + size;
  }
  return { by, fold: Uint8Array.from(block, (one) => foldOf.get(one) ?? 0) };
}

function* countingPieces(notes: LearnNotes, weights: Float64Array): Iterable<number> {
  for (let row = 0; row < notes.length; row++) if ((weights[row] ?? 0) > 0) yield notes.piece[row] ?? 0;
}

/** For how many notes an articulation stays, in the mean. */
export function meanSection(labels: Int32Array): number {
  const known = labels.filter((label) => label >= 0);
  const changes = known.filter((label, index) => index > 0 && label !== known[index - 1]).length;
  return known.length / (changes + 1);
}

/** The number of the phrase of each row. */
function phrasesOf(notes: LearnNotes, longest: number): Int32Array {
  const phrase = new Int32Array(notes.length);
  let number = 0;
  let size = 0;
  for (let row = 1; row < notes.length; row++) {
    size++;
    const ends =
      notes.piece[row] !== notes.piece[row - 1] ||
      size >= longest ||
      (size >= (longest > longestPhrase ? longest / 2 : shortestPhrase) &&
        (notes.restBeforeMs[row] ?? 0) >= phraseRest);
    if (ends) {
      number++;
      size = 0;
    }
    phrase[row] = number;
  }
  return phrase;
}
