import { type ArticulationMap, boundsIn } from '../../map/index.js';
import type { Duration } from '../../midi/index.js';

/** The bounds that a map's rules set on held times and paces, ascending; durations and ticks apart. */
export interface Bounds {
  readonly held: { readonly ms: readonly number[]; readonly ticks: readonly number[] };
  readonly pace: { readonly ms: readonly number[]; readonly ticks: readonly number[] };
}

/** Collects every bound that the rules' conditions have for steadiness, those inside any, all and not among them. */
export function boundsOf(map: ArticulationMap, ticksPerWhole: number | null): Bounds {
  const found = map.rules.flatMap(({ when }) => (when ? boundsIn(when) : []));
  const sorted = (measure: keyof Bounds) => {
    const durations = found.flatMap((bound) =>
      bound.measure === measure && 'at' in bound && typeof bound.at !== 'number' ? [bound.at] : [],
    );
    return { ms: ascending(durations.flatMap(inMs)), ticks: ascending(durations.flatMap(inTicks)) };
  };
  const inMs = (duration: Duration) => (duration.unit === 'ms' ? [duration.ms] : []);
  const inTicks = (duration: Duration) =>
    duration.unit === 'whole' && ticksPerWhole !== null
      ? [(duration.numerator * ticksPerWhole) / duration.denominator]
      : [];
  return { held: sorted('held'), pace: sorted('pace') };
}

function ascending(values: readonly number[]): readonly number[] {
  return [...new Set(values)].sort((a, b) => a - b);
}
