import { type ArticulationMap, boundsIn } from '../../map/index.js';
import type { Duration } from '../../midi/index.js';

/** The bounds that a map's rules set on each measure, ascending; times in ms and in ticks apart. */
export interface Bounds {
  /** Whether there are any for `held`, and for `pace`. */
  readonly held: boolean;
  readonly pace: boolean;
  readonly heldMs: readonly number[];
  readonly heldTicks: readonly number[];
  readonly paceMs: readonly number[];
  readonly paceTicks: readonly number[];
  /** 1 is the whole of the pace. */
  readonly heldShare: readonly number[];
  readonly overlapsNext: boolean;
  readonly overlapsPrevious: boolean;
}

/** Collects every bound that the rules' conditions have for steadiness, those inside any, all and not among them. */
export function boundsOf(map: ArticulationMap, ticksPerWhole: number | null): Bounds {
  const found = map.rules.flatMap(({ when }) => (when ? boundsIn(when) : []));
  const durations = (of: 'held' | 'pace') =>
    found.flatMap((bound) => (bound.measure === of ? [bound.at] : []));
  const inMs = (duration: Duration) => (duration.unit === 'ms' ? [duration.ms] : []);
  const inTicks = (duration: Duration) =>
    duration.unit === 'whole' && ticksPerWhole !== null
      ? [(duration.numerator * ticksPerWhole) / duration.denominator]
      : [];
  const asks = (of: (typeof found)[number]['measure']) => found.some(({ measure }) => measure === of);
  return {
    held: asks('held'),
    pace: asks('pace'),
    heldMs: ascending(durations('held').flatMap(inMs)),
    heldTicks: ascending(durations('held').flatMap(inTicks)),
    paceMs: ascending(durations('pace').flatMap(inMs)),
    paceTicks: ascending(durations('pace').flatMap(inTicks)),
    heldShare: ascending(found.flatMap((bound) => (bound.measure === 'held-share' ? [bound.at] : []))),
    overlapsNext: asks('overlaps-next'),
    overlapsPrevious: asks('overlaps-previous'),
  };
}

function ascending(values: readonly number[]): readonly number[] {
  return [...new Set(values)].sort((a, b) => a - b);
}
