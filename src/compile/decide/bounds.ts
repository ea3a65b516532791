import type { ArticulationMap, Condition } from '../../map/index.js';
import type { Duration } from '../../midi/index.js';

/** The bounds that a map's rules set on held times and paces, ascending; durations and ticks apart. */
export interface Bounds {
  readonly held: { readonly ms: readonly number[]; readonly ticks: readonly number[] };
  readonly pace: { readonly ms: readonly number[]; readonly ticks: readonly number[] };
}

/** Collects every `held` and `pace` bound of the rules, those inside any, all and not among them. */
export function boundsOf(map: ArticulationMap, ticksPerWhole: number | null): Bounds {
  const found = { held: [] as Duration[], pace: [] as Duration[] };
  for (const rule of map.rules) if (rule.when) collect(rule.when, found);
  const sorted = (durations: readonly Duration[]) => ({
    ms: ascending(durations.flatMap((duration) => (duration.unit === 'ms' ? [duration.ms] : []))),
    ticks: ascending(
      durations.flatMap((duration) =>
        duration.unit === 'whole' && ticksPerWhole !== null
          ? [(duration.numerator * ticksPerWhole) / duration.denominator]
          : [],
      ),
    ),
  });
  return { held: sorted(found.held), pace: sorted(found.pace) };
}

function collect(condition: Condition, found: { held: Duration[]; pace: Duration[] }): void {
  switch (condition.key) {
    case 'held':
    case 'pace': {
      const { from, below } = condition.range;
      found[condition.key].push(...(from ? [from] : []), ...(below ? [below] : []));
      break;
    }
    case 'any':
    case 'all':
      for (const member of condition.of) collect(member, found);
      break;
    case 'not':
      collect(condition.of, found);
      break;
  }
}

function ascending(values: readonly number[]): readonly number[] {
  return [...new Set(values)].sort((a, b) => a - b);
}
