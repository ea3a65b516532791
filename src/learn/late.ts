import { problemOf, searchLadder } from './find/index.js';
import { countingRows, type Material, type Weighing, withLabels } from './material.js';

/** By how many notes the switches come too late (or, below 0, too early). */
export type Shift = -1 | 0 | 1;

/** Trying is done with at most so many notes. */
const mostTried = 600;

/** A shift has to make this share of the notes right that were wrong before. */
const leastGain = 0.02;

/** Finds by trying whether every switch comes a note late or early, and gives the labels that were meant. */
export function withoutDelay(
  material: Material,
  weigh: Weighing,
): { readonly shift: Shift; readonly material: Material } {
  const tried = ([0, 1, -1] as const).map((shift) => {
    const shifted = shift === 0 ? material : withLabels(material, shiftLabels(material, shift), weigh);
    return { shift, material: shifted, errors: errorsWith(shifted) };
  });
  const [asIs, ...others] = tried;
  const best = others.reduce<(typeof tried)[number] | undefined>(
    (least, one) => (one.errors < (least?.errors ?? Infinity) ? one : least),
    undefined,
  );
  if (asIs && best && asIs.errors - best.errors > leastGain && best.errors < 0.75 * asIs.errors) return best;
  return { shift: 0, material };
}

/** The share of the notes that a ladder found for them gets wrong. */
function errorsWith(material: Material): number {
  const { bins, labels, weights, classes } = material;
  if (classes.length < 2) return 0;
  const rows = countingRows(material);
  const step = Math.ceil(rows.length / mostTried);
  const some = rows.filter((_, index) => index % step === 0);
  const problem = problemOf(bins, some, labels, weights, material);
  return searchLadder(problem, 'quick').errors / problem.total;
}

/** Each note's label from the note after it (before it, where switches come early), within its piece. */
function shiftLabels({ notes, labels }: Material, shift: 1 | -1): Int32Array {
  return labels.map((label, row) => {
    const other = row + shift;
    const inPiece = other >= 0 && other < notes.length && notes.piece[other] === notes.piece[row];
    return inPiece ? (labels[other] ?? -1) : label;
  });
}
