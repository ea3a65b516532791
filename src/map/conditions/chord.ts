import type { ConditionKind } from './kind.js';
import { formatNumberRange, numberFits } from './number-range.js';

/** `chord`: how many notes the onset has, both bounds inclusive. */
export const chord: ConditionKind<'chord'> = {
  key: 'chord',
  fragment: 'when-chord',
  bind:
    ({ range }) =>
    (note) =>
      numberFits(range, note.chord),
  say: ({ range }, note) => `chord ${note.chord} (${formatNumberRange(range)})`,
};
