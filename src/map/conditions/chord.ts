import { numberCondition } from './number-condition.js';
import { wholeNumbers } from './number-range.js';

/** `chord`: how many notes the onset has, both bounds inclusive. */
export const chord = numberCondition('chord', {
  description: 'How many notes are struck together at this onset, both bounds inclusive.',
  example: { from: 3 },
  notation: wholeNumbers(1, 128),
  // Nothing bounds how many notes a recording may strike together.
  numbers: [1, Number.POSITIVE_INFINITY],
  measure: (note) => note.chord,
});
