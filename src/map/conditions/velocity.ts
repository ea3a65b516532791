import type { ConditionKind } from './kind.js';
import { formatNumberRange, numberFits } from './number-range.js';

/** `velocity`: note-on velocity, both bounds inclusive. */
export const velocity: ConditionKind<'velocity'> = {
  key: 'velocity',
  fragment: 'when-velocity',
  bind:
    ({ range }) =>
    (note) =>
      numberFits(range, note.velocity),
  say: ({ range }, note) => `velocity ${note.velocity} (${formatNumberRange(range)})`,
};
