import { numberCondition } from './number-condition.js';
import { wholeNumbers } from './number-range.js';

/** `velocity`: note-on velocity, both bounds inclusive. */
export const velocity = numberCondition('velocity', {
  description: 'The note-on velocity, both bounds inclusive.',
  example: { from: 100 },
  notation: wholeNumbers(1, 127),
  numbers: [1, 127],
  measure: (note) => note.velocity,
});
