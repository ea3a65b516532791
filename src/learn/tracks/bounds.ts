import type { ArticulationMap, Condition } from '../../map/index.js';
import type { Clock, Duration } from '../../midi/index.js';
import type { MapBound, Measure } from '../suggest/index.js';

/** A condition on one of the measures of which a take's lengths are told. */
type Ranged = Extract<Condition, { readonly key: Measure }>;

/** Where a bound stands in its range, in percent or ms; fractions as long as they are at the beginning of the music. */
interface Side {
  readonly value: number;
  readonly text: string;
}

/** The bounds of a map's rules on held-share, held and pace, each once, in the order of the rules. */
export function boundsOf(map: ArticulationMap, clock: Clock): readonly MapBound[] {
  const found = map.rules.flatMap(({ when }) => (when ? boundsIn(when, clock) : []));
  return [...new Map(found.map((one) => [`${one.measure} ${one.value}`, one])).values()];
}

/** The map with one of its bounds at another value, wherever the rules have it. */
export function withBound(
  map: ArticulationMap,
  { measure, value }: MapBound,
  to: number,
  clock: Clock,
): ArticulationMap {
  const isIt = (at: Duration | number) => sideOf(at, clock)?.value === value;
  const moved = (one: Ranged): Condition => {
    if (one.key !== measure) return one;
    if (one.key === 'held-share') {
      const { from, below } = one.range;
      const at = (bound: number) => (isIt(bound) ? to / 100 : bound);
      return {
        ...one,
        range: {
          ...(from === undefined ? {} : { from: at(from) }),
          ...(below === undefined ? {} : { below: at(below) }),
        },
      };
    }
    const { from, below } = one.range;
    const at = (bound: Duration): Duration => (isIt(bound) ? { unit: 'ms', ms: to } : bound);
    return { ...one, range: { ...(from ? { from: at(from) } : {}), ...(below ? { below: at(below) } : {}) } };
  };
  return {
    ...map,
    rules: map.rules.map((rule) => (rule.when ? { ...rule, when: changed(rule.when, moved) } : rule)),
  };
}

function boundsIn(condition: Condition, clock: Clock): readonly MapBound[] {
  if (condition.key === 'all' || condition.key === 'any')
    return condition.of.flatMap((one) => boundsIn(one, clock));
  if (condition.key === 'not') return boundsIn(condition.of, clock);
  if (!isRanged(condition)) return [];
  const { from, below } = condition.range;
  return [from, below].flatMap((at): MapBound[] => {
    const side = at === undefined ? undefined : sideOf(at, clock);
    return side ? [{ measure: condition.key, ...side }] : [];
  });
}

function changed(condition: Condition, change: (one: Ranged) => Condition): Condition {
  if (condition.key === 'all' || condition.key === 'any')
    return { ...condition, of: condition.of.map((one) => changed(one, change)) };
  if (condition.key === 'not') return { ...condition, of: changed(condition.of, change) };
  return isRanged(condition) ? change(condition) : condition;
}

function isRanged(condition: Condition): condition is Ranged {
  return condition.key === 'held-share' || condition.key === 'held' || condition.key === 'pace';
}

/** Undefined for a fraction in a file without beats. */
function sideOf(at: Duration | number, clock: Clock): Side | undefined {
  if (typeof at === 'number') {
    const percent = Math.round(at * 1e5) / 1e3;
    return { value: percent, text: `${percent}%` };
  }
  if (at.unit === 'ms') return { value: at.ms, text: `${at.ms}ms` };
  const { numerator, denominator } = at;
  if (clock.ticksPerWhole === null) return undefined;
  const ms = clock.ms((clock.ticksPerWhole * numerator) / denominator);
  return { value: Math.round(ms), text: `${numerator}/${denominator}` };
}
