import type { MeasuredNote, Span } from '../../midi/index.js';
import { refersTo } from '../../yaml/index.js';
import {
  type DurationRange,
  durationInterval,
  endsOf,
  formatSpan,
  formatSpanRange,
  readDurationRange,
  spanFits,
} from './duration-range.js';
import type { MeasuredKind } from './kind.js';

export interface DurationCondition<K extends string> {
  readonly key: K;
  readonly range: DurationRange;
}

/** What one kind of range of durations has of its own. */
interface Told {
  readonly description: string;
  readonly example: { readonly from?: string; readonly below?: string };
  measure(note: MeasuredNote): Span;
  /** The measure that steadiness knows its bounds by; undefined where it leaves them alone. */
  readonly steadiedBy: 'held' | 'pace' | undefined;
}

/** A kind of condition that asks whether a length of time lies in a range. Its key, without hyphens, is what is said. */
export function durationCondition<K extends string>(
  key: K,
  { description, example, measure, steadiedBy }: Told,
): MeasuredKind<DurationCondition<K>> {
  const words = key.replaceAll('-', ' ');
  return {
    key,
    schema: { ...refersTo('duration-range'), description, examples: [example] },
    read: (source, tree) => ({ key, range: readDurationRange(source, tree) }),
    bind: ({ range }, line) => {
      const fits = spanFits(range, line.clock.ticksPerWhole);
      return (note) => fits(measure(note));
    },
    format: ({ range }, note) => `${words} ${formatSpan(measure(note))} (${formatSpanRange(range)})`,
    interval: ({ range }) => durationInterval(key, range),
    implies: (narrow, wide) => formatSpanRange(narrow.range) === formatSpanRange(wide.range),
    durations: ({ range }) => endsOf(range),
    bounds: ({ range }) => (steadiedBy ? endsOf(range).map((at) => ({ measure: steadiedBy, at })) : []),
  };
}
