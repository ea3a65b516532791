import { median, spread } from '../../signal/index.js';
import type { MeasuredStep, StepBounds } from '../result.js';

/** An onset and what it may depend on. */
export interface OnsetAt {
  readonly ms: number;
  readonly pitch: number;
  readonly velocity: number;
}

/** Times that differ by less are one. Unit: ms. */
const leastDifference = 10;
/** A step of fewer notes is none. */
const fewest = 3;

type Factor = 'velocity' | 'pitch';

/**
 * Steps by velocity or by pitch, whichever parts the onsets better; undefined where neither has neighbours whose medians
 * differ by more than 10 ms and by more than they scatter. The last step has no condition.
 */
export function stepsOf(
  onsets: readonly OnsetAt[],
  factors: readonly Factor[],
): readonly MeasuredStep[] | undefined {
  const parted = factors
    .map((factor) => ({ factor, groups: split(onsets, factor) }))
    .filter(({ groups }) => groups.length > 1)
    .map((one) => ({ ...one, left: one.groups.reduce((sum, group) => sum + scatter(group), 0) }))
    .sort((a, b) => a.left - b.left);
  const [best] = parted;
  if (!best) return undefined;
  const { factor, groups } = best;
  return groups.map((group, index) => {
    const times = group.map(({ ms }) => ms);
    const rest = { isMs: median(times), spreadMs: spread(times), used: group.length };
    const next = groups[index + 1];
    if (!next) return { when: null, ...rest };
    const to = Math.floor((highest(group, factor) + lowest(next, factor)) / 2);
    const bounds: StepBounds = { to };
    return { when: factor === 'velocity' ? { velocity: bounds } : { pitch: bounds }, ...rest };
  });
}

/** Parts onsets where they differ most, and each part again, by rising factor. */
function split(onsets: readonly OnsetAt[], factor: Factor): readonly (readonly OnsetAt[])[] {
  const values = [...new Set(onsets.map((one) => one[factor]))].sort((a, b) => a - b);
  let best:
    | { readonly low: readonly OnsetAt[]; readonly high: readonly OnsetAt[]; readonly left: number }
    | undefined;
  for (const value of values.slice(1)) {
    const low = onsets.filter((one) => one[factor] < value);
    const high = onsets.filter((one) => one[factor] >= value);
    const left = scatter(low) + scatter(high);
    if (differ(low, high) && (!best || left < best.left)) best = { low, high, left };
  }
  return best ? [...split(best.low, factor), ...split(best.high, factor)] : [onsets];
}

/** Whether two groups differ by more than 10 ms and by more than either scatters. */
export function differ(a: readonly OnsetAt[], b: readonly OnsetAt[]): boolean {
  if (a.length < fewest || b.length < fewest) return false;
  const [first, second] = [a.map(({ ms }) => ms), b.map(({ ms }) => ms)];
  return Math.abs(median(first) - median(second)) > Math.max(leastDifference, spread(first), spread(second));
}

/** How far onsets lie from their median, summed. */
function scatter(onsets: readonly OnsetAt[]): number {
  const middle = median(onsets.map(({ ms }) => ms));
  return onsets.reduce((sum, { ms }) => sum + Math.abs(ms - middle), 0);
}

function lowest(onsets: readonly OnsetAt[], factor: Factor): number {
  return Math.min(...onsets.map((one) => one[factor]));
}

function highest(onsets: readonly OnsetAt[], factor: Factor): number {
  return Math.max(...onsets.map((one) => one[factor]));
}
