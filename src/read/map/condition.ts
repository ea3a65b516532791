import type { Condition, DurationRange, NumberRange } from '../../model/map.js';
import type { Path } from '../yaml/places.js';
import { type Context, pitchAt } from './context.js';
import { parseDuration } from './duration.js';
import type { RawCondition, RawPitch } from './raw.js';

interface RawRange<T> {
  readonly from?: T;
  readonly below?: T;
  readonly to?: T;
}

/** A condition as the rules test it; several keys beside each other must all hold. */
export function conditionAt(context: Context, raw: RawCondition, path: Path): Condition {
  const of = Object.entries(raw).map(([key, value]) => single(context, key, value, [...path, key]));
  const [only] = of;
  return only && of.length === 1 ? only : { key: 'all', of };
}

function single(context: Context, key: string, value: unknown, path: Path): Condition {
  switch (key) {
    case 'held':
    case 'pace':
    case 'rest-before':
    case 'rest-after':
      return { key, range: durationRange(context, value as RawRange<string>, path) };
    case 'overlaps-next':
    case 'overlaps-previous':
    case 'repeats-previous':
      return { key, is: value === true };
    case 'velocity':
    case 'leap':
    case 'chord':
      return { key, range: numberRange(context, value as RawRange<number>, path) };
    case 'pitch': {
      const { from, to } = value as RawRange<RawPitch>;
      const range = {
        ...(from === undefined ? {} : { from: pitchAt(context, from, [...path, 'from']) }),
        ...(to === undefined ? {} : { to: pitchAt(context, to, [...path, 'to']) }),
      };
      return { key, range: numberRange(context, range, path) };
    }
    case 'run': {
      const { notes, pace } = value as { readonly notes: number; readonly pace: RawRange<string> };
      return { key, notes, pace: durationRange(context, pace, [...path, 'pace']) };
    }
    case 'any':
    case 'all': {
      const members = value as readonly RawCondition[];
      return { key, of: members.map((member, index) => conditionAt(context, member, [...path, index])) };
    }
    default:
      return { key: 'not', of: conditionAt(context, value as RawCondition, path) };
  }
}

function durationRange(context: Context, { from, below }: RawRange<string>, path: Path): DurationRange {
  const range = {
    ...(from === undefined ? {} : { from: parseDuration(from) }),
    ...(below === undefined ? {} : { below: parseDuration(below) }),
  };
  if (isEmpty(range))
    context.report(
      'range-reversed',
      'error',
      path,
      `from ${from} lies at or above below ${below}: nothing fits`,
      'from is the least that fits, below the first that no longer does',
    );
  return range;
}

/** A range in which nothing lies. Times and fractions cannot be compared without a tempo. */
function isEmpty({ from, below }: DurationRange): boolean {
  if (from?.unit === 'ms' && below?.unit === 'ms') return from.ms >= below.ms;
  if (from?.unit !== 'whole' || below?.unit !== 'whole') return false;
  return from.numerator * below.denominator >= below.numerator * from.denominator;
}

function numberRange(context: Context, range: NumberRange, path: Path): NumberRange {
  if (range.from !== undefined && range.to !== undefined && range.from > range.to)
    context.report(
      'range-reversed',
      'error',
      path,
      `from ${range.from} lies above to ${range.to}: nothing fits`,
      'from is the least that fits, to the most',
    );
  return range;
}
