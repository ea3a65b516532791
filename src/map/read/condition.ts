import type { Duration } from '../../midi/index.js';
import type { Tree } from '../../yaml/index.js';
import type { Source } from '../source.js';
import type { Condition, DurationRange, NumberRange } from '../types.js';
import { duration, entries, field, listOf, number, pitch, present } from './values.js';

/** A condition as the rules test it; several keys beside each other must all hold. What is faulty is left out. */
export function condition(source: Source, tree: Tree): Condition {
  const of = entries(tree).flatMap(([key, value]) => single(source, key, value) ?? []);
  const [only] = of;
  return only && of.length === 1 ? only : { key: 'all', of };
}

function single(source: Source, key: string, tree: Tree): Condition | undefined {
  switch (key) {
    case 'held':
    case 'pace':
    case 'rest-before':
    case 'rest-after':
      return { key, range: durationRange(source, tree) };
    case 'overlaps-next':
    case 'overlaps-previous':
    case 'repeats-previous':
      return { key, is: tree.data === true };
    case 'velocity':
    case 'leap':
    case 'chord':
      return { key, range: numberRange(source, tree, number) };
    case 'pitch':
      return { key, range: numberRange(source, tree, pitch) };
    case 'run':
      return {
        key,
        notes: number(source, field(tree, 'notes')) ?? 2,
        pace: durationRange(source, field(tree, 'pace')),
      };
    case 'any':
    case 'all':
      return { key, of: listOf(tree).map((member) => condition(source, member)) };
    case 'not':
      return { key, of: condition(source, tree) };
    default:
      return undefined;
  }
}

function durationRange(source: Source, tree: Tree | undefined): DurationRange {
  const [fromTree, belowTree] = [field(tree, 'from'), field(tree, 'below')];
  const range = present<DurationRange>({
    from: duration(source, fromTree),
    below: duration(source, belowTree),
  });
  if (tree && range.from && range.below && isAtLeast(range.from, range.below))
    source.report(
      'range-reversed',
      tree,
      `nothing is at least ${String(fromTree?.data)} and below ${String(belowTree?.data)}`,
      'from is the least that fits, below the first that no longer does',
    );
  return range;
}

/** Whether one duration is as long as another or longer. Times and fractions cannot be compared without a tempo. */
function isAtLeast(one: Duration, other: Duration): boolean {
  if (one.unit === 'ms' && other.unit === 'ms') return one.ms >= other.ms;
  if (one.unit !== 'whole' || other.unit !== 'whole') return false;
  return one.numerator * other.denominator >= other.numerator * one.denominator;
}

function numberRange(
  source: Source,
  tree: Tree,
  value: (source: Source, tree: Tree | undefined) => number | undefined,
): NumberRange {
  const [fromTree, toTree] = [field(tree, 'from'), field(tree, 'to')];
  const range = present<NumberRange>({ from: value(source, fromTree), to: value(source, toTree) });
  if (range.from !== undefined && range.to !== undefined && range.from > range.to)
    source.report(
      'range-reversed',
      tree,
      `nothing is at least ${String(fromTree?.data)} and at most ${String(toTree?.data)}`,
      'from is the least that fits, to the most; write the lower one first',
    );
  return range;
}
