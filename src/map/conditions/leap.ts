import { numberCondition } from './number-condition.js';
import { wholeNumbers } from './number-range.js';

/** `leap`: semitones from the previous onset's top note, up or down. The first note leaps from nowhere: it fits no range. */
export const leap = numberCondition('leap', {
  description:
    "Semitones up or down from the previous onset's top note, both bounds inclusive. The first note fits none.",
  example: { from: 7 },
  notation: wholeNumbers(0, 127),
  numbers: [0, 127],
  measure: (note) => note.leap,
  without: 'from nowhere',
});
