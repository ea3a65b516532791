import type { Line } from '../../midi/index.js';
import type { DurationRange } from '../types.js';
import type { ConditionKind } from './kind.js';
import { formatSpanRange, spanFits } from './span-range.js';

/** `run`: the note belongs to a stretch of successive onsets, each at a pace. */
export const run: ConditionKind<'run'> = {
  key: 'run',
  fragment: 'when-run',
  bind: ({ notes, pace }, line) => {
    const lengths = stretchLengths(line, pace);
    return (note) => (lengths[note.onset] ?? 0) >= notes;
  },
  say: ({ notes, pace }) => `in a run of ${notes} or more, each at a pace ${formatSpanRange(pace)}`,
};

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
