import type { Condition, Duration } from '../../../model/map.js';

/** A stretch of one measure, from inclusive to end exclusive; whole numbers end one further. */
export interface Interval {
  readonly key: string;
  readonly unit: 'ms' | 'whole' | 'number';
  readonly from: number;
  readonly end: number;
}

/** Intervals of one key and unit can be joined. */
export function unionKey({ key, unit }: Interval): string {
  return `${key} ${unit}`;
}

/** The interval of a condition on a single measure; undefined for others, and where units are mixed. */
export function intervalOf(condition: Condition | undefined): Interval | undefined {
  switch (condition?.key) {
    case 'held':
    case 'pace':
    case 'rest-before':
    case 'rest-after': {
      const { from, below } = condition.range;
      const units = new Set([from, below].flatMap((bound) => (bound ? [bound.unit] : [])));
      const [unit] = units;
      if (!unit || units.size > 1) return undefined;
      // A range without a lower bound fits from 0 in either unit; one without an upper bound has no end.
      return {
        key: condition.key,
        unit,
        from: from ? amount(from) : 0,
        end: below ? amount(below) : Number.POSITIVE_INFINITY,
      };
    }
    case 'velocity':
    case 'pitch':
    case 'leap':
    case 'chord': {
      const { from, to } = condition.range;
      return {
        key: condition.key,
        unit: 'number',
        from: from ?? lowest[condition.key],
        end: (to ?? Number.POSITIVE_INFINITY) + 1,
      };
    }
    default:
      return undefined;
  }
}

const lowest = { velocity: 1, pitch: 0, leap: 0, chord: 1 } as const;

function amount(duration: Duration): number {
  return duration.unit === 'ms' ? duration.ms : duration.numerator / duration.denominator;
}

/** Whether the others, taken together, leave nothing of an interval. */
export function isCovered(interval: Interval, others: readonly Interval[]): boolean {
  let reached = interval.from;
  for (const { from, end } of [...others].sort((a, b) => a.from - b.from)) {
    if (from > reached) break;
    reached = Math.max(reached, end);
    if (reached >= interval.end) return true;
  }
  return reached >= interval.end;
}
