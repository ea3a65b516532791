import { mod } from './fifths.js';
import { keys } from './keys.js';

/** What a change of key costs, and what each step costs that it goes along the circle of fifths. */
const change = 0.8;
const fifth = 0.2;

/** What it costs to go from each key, one after another, to each other one. */
export const costs = Float64Array.from(
  keys.flatMap((from) =>
    keys.map((to) => {
      const steps = mod(from.fifths - to.fifths, 12);
      return from === to ? 0 : change + fifth * Math.min(steps, 12 - steps);
    }),
  ),
);

/** The key of each step on the path of highest sum (A. J. Viterbi, 1967); `fits` of all keys, one step after another. */
export function bestKeyPath(fits: Float64Array): Uint8Array {
  const count = keys.length;
  let reached = new Float64Array(count);
  let next = new Float64Array(count);
  const before = new Uint8Array(fits.length);
  for (let at = 0; at < fits.length; at += count) {
    const most = reached[indexOfBest(reached)] ?? 0;
    for (let key = 0; key < count; key++) {
      const from = at === 0 ? key : bestBefore(reached, key, most);
      before[at + key] = from;
      next[key] = (fits[at + key] ?? 0) + (reached[from] ?? 0) - (costs[from * count + key] ?? 0);
    }
    [reached, next] = [next, reached];
  }
  const path = new Uint8Array(fits.length / count);
  let key = indexOfBest(reached);
  for (let step = path.length - 1; step >= 0; step--) {
    path[step] = key;
    key = before[step * count + key] ?? key;
  }
  return path;
}

/** The key from which another is reached best; of several the first. `most` is the highest score that is reached. */
function bestBefore(reached: Float64Array, key: number, most: number): number {
  // From no other key, not even the best, is it reached with more than this: mostly it goes on.
  if ((reached[key] ?? 0) > most - change) return key;
  let [best, score] = [0, Number.NEGATIVE_INFINITY];
  for (let from = 0; from < keys.length; from++) {
    const here = (reached[from] ?? 0) - (costs[from * keys.length + key] ?? 0);
    if (here <= score) continue;
    best = from;
    score = here;
  }
  return best;
}

/** The index of the highest value; of several the first. */
export function indexOfBest(values: ArrayLike<number>): number {
  let best = 0;
  for (let index = 1; index < values.length; index++)
    if ((values[index] ?? 0) > (values[best] ?? 0)) best = index;
  return best;
}
