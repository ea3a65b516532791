import type { ConditionKind } from './kind.js';
import { formatSpan, formatSpanRange, spanFits } from './span-range.js';

/** `rest-before`: silence before the note's onset; endless for the first. */
export const restBefore: ConditionKind<'rest-before'> = {
  key: 'rest-before',
  fragment: 'when-rest-before',
  bind: ({ range }, line) => {
    const fits = spanFits(range, line.clock.ticksPerWhole);
    return (note) => fits(note.restBefore);
  },
  say: ({ range }, note) => `rest before ${formatSpan(note.restBefore)} (${formatSpanRange(range)})`,
};
