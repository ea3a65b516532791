import type { ConditionKind } from './kind.js';
import { formatNumberRange, numberFits } from './number-range.js';

/** `leap`: semitones from the previous onset's top note, up or down. The first note leaps from nowhere: it fits no range. */
export const leap: ConditionKind<'leap'> = {
  key: 'leap',
  fragment: 'when-leap',
  bind:
    ({ range }) =>
    (note) =>
      note.leap !== null && numberFits(range, note.leap),
  say: ({ range }, note) => `leap ${note.leap ?? 'from nowhere'} (${formatNumberRange(range)})`,
};
