import { yesNoCondition } from './yes-no-condition.js';

/** `overlaps-previous`: the previous note was held at or past this onset, less a tolerance. */
export const overlapsPrevious = yesNoCondition('overlaps-previous', {
  description: 'Whether the previous note is held at or past this onset, less a tolerance of 10 ms.',
  answer: (note) => note.overlapsPrevious,
  said: { yes: 'the previous note overlaps it', no: 'the previous note does not overlap it' },
  steadiedBy: 'overlaps-previous',
});
