import type { Bound } from '../bounds.js';
import type { Density } from './density.js';

/** A place where few notes are, between two heaps. */
export interface Break {
  /** The roundest bound on the floor of the valley. */
  readonly bound: Bound;
  /** The lowest point, in the unit of the values. */
  readonly lowest: number;
  /** Height of the valley over that of the lower heap beside it: 0 is empty, 1 no valley. */
  readonly depth: number;
}

/** A valley is one if it is this much lower than the lower heap. */
const deepest = 0.6;

/** And if so many standard deviations of a count (its root) lie between them. */
const leastSure = 2.5;

/** The floor of a valley: what is not higher than this over its lowest point, of the lower heap. */
const floorShare = 0.15;

/**
 * Natural breaks of values: valleys of their density that are no chance. The deepest first.
 *
 * @param bounds human bounds in the unit of the values
 */
export function naturalBreaks(density: Density, bounds: readonly Bound[]): readonly Break[] {
  const peaks = peaksOf(density.height);
  const found: Break[] = [];
  // Two heaps with a valley that is none are one heap: the higher one stands for both.
  let left = peaks[0];
  for (const right of peaks.slice(1)) {
    if (left === undefined) break;
    const valley = lowestBetween(density.height, left, right);
    const height = density.height[valley] ?? 0;
    const lower = Math.min(density.height[left] ?? 0, density.height[right] ?? 0);
    if (isValley(height, lower, density)) {
      found.push(breakAt(density, bounds, { left, valley, right, lower }));
      left = right;
    } else if ((density.height[right] ?? 0) > (density.height[left] ?? 0)) left = right;
  }
  return found.sort((a, b) => a.depth - b.depth);
}

function isValley(height: number, lower: number, { bandwidth }: Density): boolean {
  // Heights are counts of a cell of 0.02; within the smoothing's width the count is as many times more.
  const notes = (at: number) => (at * 2.5 * bandwidth) / 0.02;
  const sure = notes(lower - height) / Math.sqrt(Math.max(1, notes(lower + height)));
  return height <= deepest * lower && sure >= leastSure;
}

function peaksOf(height: Float64Array): readonly number[] {
  const peaks: number[] = [];
  for (let cell = 1; cell < height.length - 1; cell++) {
    const here = height[cell] ?? 0;
    if (here > 0 && here > (height[cell - 1] ?? 0) && here >= (height[cell + 1] ?? 0)) peaks.push(cell);
  }
  return peaks;
}

function lowestBetween(height: Float64Array, left: number, right: number): number {
  let lowest = left;
  for (let cell = left; cell <= right; cell++) if ((height[cell] ?? 0) < (height[lowest] ?? 0)) lowest = cell;
  // An empty valley has a wide floor: its middle.
  let end = lowest;
  while (end < right && (height[end + 1] ?? 0) <= (height[lowest] ?? 0) + 1e-9) end++;
  return (lowest + end) >> 1;
}

interface Valley {
  readonly left: number;
  readonly valley: number;
  readonly right: number;
  readonly lower: number;
}

function breakAt(
  { at, height }: Density,
  bounds: readonly Bound[],
  { left, valley, right, lower }: Valley,
): Break {
  const lowest = Math.exp(at[valley] ?? 0);
  const ceiling = (height[valley] ?? 0) + floorShare * lower;
  let from = valley;
  let to = valley;
  while (from > left && (height[from - 1] ?? 0) <= ceiling) from--;
  while (to < right && (height[to + 1] ?? 0) <= ceiling) to++;
  const onFloor = bounds.filter(
    ({ value }) => Math.log(value) >= (at[from] ?? 0) && Math.log(value) <= (at[to] ?? 0),
  );
  const near = onFloor.length > 0 ? onFloor : bounds;
  const far = ({ value }: Bound) => Math.abs(Math.log(value / lowest));
  const roundness = Math.min(...near.map(({ tier }) => (onFloor.length > 0 ? tier : 0)));
  const bound = near
    .filter(({ tier }) => onFloor.length === 0 || tier === roundness)
    .reduce((best, one) => (far(one) < far(best) ? one : best));
  return { bound, lowest, depth: (height[valley] ?? 0) / lower };
}
