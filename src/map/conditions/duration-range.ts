import { type Duration, isAtLeast, type Span } from '../../midi/index.js';
import type { Tree } from '../../yaml/index.js';
import { duration, field, present, type Source } from '../source/index.js';
import type { Interval } from './interval.js';

/** Lower bound inclusive, upper exclusive; either may be absent. */
export interface DurationRange {
  readonly from?: Duration;
  readonly below?: Duration;
}

export function readDurationRange(source: Source, tree: Tree | undefined): DurationRange {
  const [fromTree, belowTree] = [field(tree, 'from'), field(tree, 'below')];
  const range = present<DurationRange>({
    from: duration(source, fromTree),
    below: duration(source, belowTree),
  });
  if (tree && range.from && range.below && isAsLong(range.from, range.below))
    source.report(
      'range-reversed',
      tree,
      `nothing is at least ${String(fromTree?.data)} and below ${String(belowTree?.data)}`,
      'from is the least that fits, below the first that no longer does',
    );
  return range;
}

/** Whether one duration is as long as another or longer. Times and fractions cannot be compared without a tempo. */
function isAsLong(one: Duration, other: Duration): boolean {
  if (one.unit === 'ms' && other.unit === 'ms') return one.ms >= other.ms;
  if (one.unit !== 'whole' || other.unit !== 'whole') return false;
  return one.numerator * other.denominator >= other.numerator * one.denominator;
}

/** Whether a span is at least `from` and less than `below`. A fraction fits nothing where there are no beats. */
export function spanFits(range: DurationRange, ticksPerWhole: number | null): (span: Span) => boolean {
  const { from, below } = range;
  const beatless = ticksPerWhole === null && (from?.unit === 'whole' || below?.unit === 'whole');
  if (beatless) return () => false;
  // Most are times, and are asked of every note several times.
  if (from?.unit !== 'whole' && below?.unit !== 'whole') {
    const [least, end] = [from?.ms ?? Number.NEGATIVE_INFINITY, below?.ms ?? Number.POSITIVE_INFINITY];
    const isEndless = below === undefined;
    return ({ ms }) => ms >= least && (isEndless || ms < end);
  }
  return (span) =>
    (from === undefined || isAtLeast(span, from, ticksPerWhole)) &&
    (below === undefined || !isAtLeast(span, below, ticksPerWhole));
}

/** The durations of a range. */
export function endsOf({ from, below }: DurationRange): readonly Duration[] {
  return [...(from ? [from] : []), ...(below ? [below] : [])];
}

/**
 * The stretch that a range takes of a measure; undefined where units are mixed. In a file without beats no length
 * reaches a fraction of a note, so that only times have a whole.
 */
export function durationInterval(measure: string, { from, below }: DurationRange): Interval | undefined {
  const unit = (from ?? below)?.unit;
  if (!unit || (below && below.unit !== unit)) return undefined;
  return {
    measure: `${measure} ${unit}`,
    from: from ? amount(from) : 0,
    end: below ? amount(below) : Number.POSITIVE_INFINITY,
    ...(unit === 'ms' ? { whole: { from: 0, end: Number.POSITIVE_INFINITY } } : {}),
  };
}

function amount(length: Duration): number {
  return length.unit === 'ms' ? length.ms : length.numerator / length.denominator;
}

/** A duration as a map spells it. */
export function formatDuration(length: Duration): string {
  return length.unit === 'ms' ? `${length.ms}ms` : `${length.numerator}/${length.denominator}`;
}

/** A span in words: `182.3 ms`, or that it is endless. */
export function formatSpan(span: Span): string {
  return Number.isFinite(span.ms) ? `${Math.round(span.ms * 10) / 10} ms` : 'endless';
}

/** `130ms to below 320ms`, `below 130ms`, `from 320ms`. */
export function formatSpanRange({ from, below }: DurationRange): string {
  if (from && below) return `${formatDuration(from)} to below ${formatDuration(below)}`;
  if (below) return `below ${formatDuration(below)}`;
  return from ? `from ${formatDuration(from)}` : 'any';
}
