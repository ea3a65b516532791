import type { Pair } from './notes.js';

/** A note at a time, of one pitch. */
interface Moment {
  readonly index: number;
  readonly ms: number;
}

/** What costs as much as a note unplayed: to be this far from where it is expected. Unit: ms. */
export type Tolerance = (written: number) => number;

/** What it costs to leave a note alone, on either side. */
const aloneCost = 1;

/**
 * Pairs written and played notes of one pitch, both in order: the cheapest way to pair or leave alone each of them,
 * where a pair costs its distance in time over the tolerance (edit distance by dynamic programming).
 */
export function pairMoments(
  written: readonly Moment[],
  taken: readonly Moment[],
  tolerance: Tolerance,
): readonly Pair[] {
  const width = taken.length + 1;
  const costs = new Float64Array((written.length + 1) * width);
  for (let column = 0; column < width; column++) costs[column] = column * aloneCost;
  const at = (row: number, column: number) => costs[row * width + column] ?? 0;
  const pairCost = (row: number, column: number) => {
    const note = written[row - 1];
    const moment = taken[column - 1];
    return note && moment ? Math.abs(note.ms - moment.ms) / tolerance(note.index) : Number.POSITIVE_INFINITY;
  };
  for (let row = 1; row <= written.length; row++) {
    costs[row * width] = row * aloneCost;
    for (let column = 1; column < width; column++)
      costs[row * width + column] = Math.min(
        at(row - 1, column - 1) + pairCost(row, column),
        at(row - 1, column) + aloneCost,
        at(row, column - 1) + aloneCost,
      );
  }
  const pairs: Pair[] = [];
  for (let row = written.length, column = taken.length; row > 0 && column > 0; ) {
    if (at(row, column) === at(row - 1, column - 1) + pairCost(row, column)) {
      const [note, moment] = [written[row - 1], taken[column - 1]];
      if (note && moment) pairs.push({ written: note.index, taken: moment.index });
      row -= 1;
      column -= 1;
    } else if (at(row, column) === at(row - 1, column) + aloneCost) row -= 1;
    else column -= 1;
  }
  return pairs.reverse();
}
