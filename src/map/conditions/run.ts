import type { Line } from '../../midi/index.js';
import { refersTo } from '../../yaml/index.js';
import { field, number } from '../source/index.js';
import {
  type DurationRange,
  durationInterval,
  endsOf,
  formatSpanRange,
  readDurationRange,
  spanFits,
} from './duration-range.js';
import { liesIn } from './interval.js';
import type { MeasuredKind } from './kind.js';

export interface RunCondition {
  readonly key: 'run';
  readonly notes: number;
  readonly pace: DurationRange;
}

/** `run`: the note belongs to a stretch of successive onsets, each at a pace. */
export const run: MeasuredKind<RunCondition> = {
  key: 'run',
  schema: {
    description: 'The note belongs to a stretch of at least so many successive onsets, each at this pace.',
    examples: [{ notes: 5, pace: { below: '1/12' } }],
    type: 'object',
    additionalProperties: false,
    required: ['notes', 'pace'],
    properties: {
      notes: {
        description: 'The least number of successive onsets.',
        type: 'integer',
        minimum: 2,
        maximum: 1000,
      },
      pace: refersTo('duration-range', { description: 'The pace of each of them, onset to onset.' }),
    },
  },
  read: (source, tree) => ({
    key: 'run',
    notes: number(source, field(tree, 'notes')) ?? 2,
    pace: readDurationRange(source, field(tree, 'pace')),
  }),
  bind: ({ notes, pace }, line) => {
    const lengths = stretchLengths(line, pace);
    return (note) => (lengths[note.onset] ?? 0) >= notes;
  },
  format: ({ notes, pace }) => `in a run of ${notes} or more, each at a pace ${formatSpanRange(pace)}`,
  interval: () => undefined,
  implies: (narrow, wide) => narrow.notes >= wide.notes && isAsFast(narrow.pace, wide.pace),
  durations: ({ pace }) => endsOf(pace),
  bounds: () => [],
};

function isAsFast(narrow: DurationRange, wide: DurationRange): boolean {
  const [inner, outer] = [durationInterval('pace', narrow), durationInterval('pace', wide)];
  return inner && outer ? liesIn(inner, outer) : formatSpanRange(narrow) === formatSpanRange(wide);
}

/** For each onset: how many successive onsets, itself among them, keep to the pace; 0 where it does not. */
function stretchLengths(line: Line, pace: DurationRange): readonly number[] {
  const fits = spanFits(pace, line.clock.ticksPerWhole);
  const lengths: number[] = new Array<number>(line.onsets.length).fill(0);
  let start = 0;
  for (let end = 0; end <= line.onsets.length; end++) {
    const onset = line.onsets[end];
    if (onset && fits(onset.pace)) continue;
    lengths.fill(end - start, start, end);
    start = end + 1;
  }
  return lengths;
}
