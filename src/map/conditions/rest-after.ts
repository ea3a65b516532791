import type { ConditionKind } from './kind.js';
import { formatSpan, formatSpanRange, spanFits } from './span-range.js';

/** `rest-after`: silence after the note's onset; endless for the last. */
export const restAfter: ConditionKind<'rest-after'> = {
  key: 'rest-after',
  fragment: 'when-rest-after',
  bind: ({ range }, line) => {
    const fits = spanFits(range, line.clock.ticksPerWhole);
    return (note) => fits(note.restAfter);
  },
  say: ({ range }, note) => `rest after ${formatSpan(note.restAfter)} (${formatSpanRange(range)})`,
};
