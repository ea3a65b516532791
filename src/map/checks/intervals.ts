import type { Duration } from '../../midi/index.js';
import type { Condition } from '../types.js';

/** A stretch of one measure, from inclusive to end exclusive; whole numbers end one further. */
export interface Interval {
  /** The measure and its unit: only intervals of one measure can be compared. */
  readonly measure: string;
  readonly from: number;
  readonly end: number;
}

/** What whole numbers there are of each measure. */
const numbers = {
  velocity: { from: 1, end: 128 },
  pitch: { from: 0, end: 128 },
  leap: { from: 0, end: 128 },
  chord: { from: 1, end: Number.POSITIVE_INFINITY },
} as const;

/** The interval of a condition on a single measure; undefined for others, and where units are mixed. */
export function intervalOf(condition: Condition | undefined): Interval | undefined {
  switch (condition?.key) {
    case 'held':
    case 'pace':
    case 'rest-before':
    case 'rest-after': {
      const { from, below } = condition.range;
      const unit = (from ?? below)?.unit;
      if (!unit || (below && below.unit !== unit)) return undefined;
      return {
        measure: `${condition.key} ${unit}`,
        from: from ? amount(from) : 0,
        end: below ? amount(below) : Number.POSITIVE_INFINITY,
      };
    }
    case 'velocity':
    case 'pitch':
    case 'leap':
    case 'chord': {
      const { from, end } = numbers[condition.key];
      const { range } = condition;
      return {
        measure: condition.key,
        from: Math.max(from, range.from ?? from),
        end: Math.min(end, (range.to ?? end) + 1),
      };
    }
    default:
      return undefined;
  }
}

function amount(duration: Duration): number {
  return duration.unit === 'ms' ? duration.ms : duration.numerator / duration.denominator;
}

/**
 * Everything that a measure may be, where every note has it. The first note has no leap, and in a file without beats
 * no length reaches a fraction of a note.
 */
export function wholeOf({ measure }: Interval): Interval | undefined {
  if (measure === 'velocity' || measure === 'pitch' || measure === 'chord')
    return { measure, ...numbers[measure] };
  return measure.endsWith(' ms') ? { measure, from: 0, end: Number.POSITIVE_INFINITY } : undefined;
}

export function isEmpty({ from, end }: Interval): boolean {
  return from >= end;
}

/** Whether the whole of one interval lies in another of its measure. */
export function liesIn(inner: Interval, outer: Interval): boolean {
  return inner.measure === outer.measure && inner.from >= outer.from && inner.end <= outer.end;
}

/** Intervals of one measure in order, none of them touching another. */
export type Union = readonly Interval[];

/** A union with one interval more. */
export function unionOf(union: Union, interval: Interval): Union {
  if (isEmpty(interval)) return union;
  const apart = union.filter(({ from, end }) => end < interval.from || from > interval.end);
  const touching = union.filter((one) => !apart.includes(one));
  const whole = {
    measure: interval.measure,
    from: Math.min(interval.from, ...touching.map(({ from }) => from)),
    end: Math.max(interval.end, ...touching.map(({ end }) => end)),
  };
  return [
    ...apart.filter(({ from }) => from < whole.from),
    whole,
    ...apart.filter(({ from }) => from > whole.from),
  ];
}
