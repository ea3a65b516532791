import type { ConditionKind } from './kind.js';
import { formatSpan, formatSpanRange, spanFits } from './span-range.js';

/** `held`: onset to release. */
export const held: ConditionKind<'held'> = {
  key: 'held',
  fragment: 'when-held',
  bind: ({ range }, line) => {
    const fits = spanFits(range, line.clock.ticksPerWhole);
    return (note) => fits(note.held);
  },
  say: ({ range }, note) => `held ${formatSpan(note.held)} (${formatSpanRange(range)})`,
};
