import type { Target } from './curve.js';

/**
 * At least one point in so many is kept, which bounds the work: the method alone is quadratic where each split takes
 * off only one point.
 */
const block = 512;

/**
 * Drops the points of a contour that say little: Ramer (1972), Douglas & Peucker (1973). Every dropped point lies
 * within `tolerance` (in level) of the line between the kept points beside it. Iterative; memory and, through blocks
 * of 512 points, time are linear in points.
 *
 * @param points their places rise strictly
 * @param isKept points that must stay; the first and last always do
 */
export function thin(
  points: readonly Target[],
  tolerance: number,
  isKept: (index: number) => boolean = () => false,
): readonly Target[] {
  const kept = new Uint8Array(points.length);
  let start = 0;
  for (let index = 0; index < points.length; index += 1) {
    const ends = index === points.length - 1 || index - start === block;
    if (index > 0 && !ends && !isKept(index)) continue;
    kept[index] = 1;
    keepFarthest(points, start, index, tolerance, kept);
    start = index;
  }
  return points.filter((_, index) => kept[index] === 1);
}

/** Keeps what is needed between two kept points. */
function keepFarthest(
  points: readonly Target[],
  first: number,
  last: number,
  tolerance: number,
  kept: Uint8Array,
): void {
  const open: (readonly [number, number])[] = [[first, last]];
  for (let range = open.pop(); range; range = open.pop()) {
    const [from, to] = range;
    const farthest = farthestFrom(points, from, to);
    if (farthest.distance <= tolerance) continue;
    kept[farthest.index] = 1;
    open.push([from, farthest.index], [farthest.index, to]);
  }
}

/** The point farthest from the line between two others, measured in level. */
function farthestFrom(
  points: readonly Target[],
  from: number,
  to: number,
): { index: number; distance: number } {
  const a = points[from];
  const b = points[to];
  let index = from;
  let distance = 0;
  if (!a || !b) return { index, distance };
  const slope = (b.level - a.level) / (b.at - a.at);
  for (let i = from + 1; i < to; i += 1) {
    const point = points[i];
    const away = point ? Math.abs(point.level - a.level - slope * (point.at - a.at)) : 0;
    if (away <= distance) continue;
    index = i;
    distance = away;
  }
  return { index, distance };
}
