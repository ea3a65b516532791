import type { ConditionKind } from './kind.js';
import { formatSpan, formatSpanRange, spanFits } from './span-range.js';

/** `pace`: onset to the next onset in the part; the last note has its held time. */
export const pace: ConditionKind<'pace'> = {
  key: 'pace',
  fragment: 'when-pace',
  bind: ({ range }, line) => {
    const fits = spanFits(range, line.clock.ticksPerWhole);
    return (note) => fits(note.pace);
  },
  say: ({ range }, note) => `pace ${formatSpan(note.pace)} (${formatSpanRange(range)})`,
};
