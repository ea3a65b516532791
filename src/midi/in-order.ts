import { lastWithin } from './sorted.js';

/** So many are put in order by insertion, before whole runs are merged. */
const runLength = 16;

/**
 * The indices of things in order; what is neither before nor behind another keeps its place. Made for things that are
 * nearly in order, as moved events are: of two runs only what overlaps is merged. There it is linear, and n log n at worst.
 *
 * @param isBefore whether the thing with the one index comes before that with the other
 */
export function indicesInOrder(
  length: number,
  isBefore: (one: number, other: number) => boolean,
): Uint32Array {
  const order = new Uint32Array(length);
  for (let at = 0; at < length; at++) order[at] = at;
  for (let from = 0; from < length; from += runLength)
    insert(order, from, Math.min(length, from + runLength), isBefore);
  const left = new Uint32Array(length);
  for (let run = runLength; run < length; run *= 2)
    for (let from = 0; from + run < length; from += 2 * run)
      merge(order, from, from + run, Math.min(length, from + 2 * run), left, isBefore);
  return order;
}

type IsBefore = Parameters<typeof indicesInOrder>[1];

function insert(order: Uint32Array, from: number, to: number, isBefore: IsBefore): void {
  for (let next = from + 1; next < to; next++) {
    const one = order[next] ?? 0;
    let at = next;
    for (; at > from && isBefore(one, order[at - 1] ?? 0); at--) order[at] = order[at - 1] ?? 0;
    order[at] = one;
  }
}

/** Merges the runs from `from` and from `middle` on. */
function merge(
  order: Uint32Array,
  from: number,
  middle: number,
  to: number,
  left: Uint32Array,
  isBefore: IsBefore,
): void {
  const [last, first] = [order[middle - 1] ?? 0, order[middle] ?? 0];
  if (!isBefore(first, last)) return;
  const begin = firstWhere(from, middle, (at) => isBefore(first, order[at] ?? 0));
  const end = firstWhere(middle, to, (at) => !isBefore(order[at] ?? 0, last));
  const length = middle - begin;
  left.set(order.subarray(begin, middle));
  let [ofLeft, ofRight] = [0, middle];
  for (let at = begin; ofLeft < length; at++) {
    const takesRight = ofRight < end && isBefore(order[ofRight] ?? 0, left[ofLeft] ?? 0);
    order[at] = takesRight ? (order[ofRight++] ?? 0) : (left[ofLeft++] ?? 0);
  }
}

/** The first index from which on something holds; `to` where it does nowhere. */
function firstWhere(from: number, to: number, holds: (at: number) => boolean): number {
  return from + 1 + lastWithin(to - from, (at) => (holds(from + at) ? 1 : 0), 0);
}
