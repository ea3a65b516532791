import type { ConditionKind } from './kind.js';
import { formatNumberRange, numberFits } from './number-range.js';

/** `pitch`: the MIDI note, both bounds inclusive. */
export const pitch: ConditionKind<'pitch'> = {
  key: 'pitch',
  fragment: 'when-pitch',
  bind:
    ({ range }) =>
    (note) =>
      numberFits(range, note.pitch),
  say: ({ range }, note) => `pitch ${note.pitch} (${formatNumberRange(range)})`,
};
