import { numberCondition } from './number-condition.js';
import { pitches } from './number-range.js';

/** `pitch`: the MIDI note, both bounds inclusive. */
export const pitch = numberCondition('pitch', {
  description: "The note's pitch, both bounds inclusive.",
  example: { to: 'G3' },
  notation: pitches,
  numbers: [0, 127],
  measure: (note) => note.pitch,
});
