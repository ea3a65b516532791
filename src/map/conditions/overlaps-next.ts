import { yesNoCondition } from './yes-no-condition.js';

/** `overlaps-next`: held at or past the next onset, less a tolerance. */
export const overlapsNext = yesNoCondition('overlaps-next', {
  description:
    'Whether the note is held at or past the next onset, less a tolerance of 10 ms: a joined line.',
  answer: (note) => note.overlapsNext,
  said: { yes: 'overlaps the next note', no: 'does not overlap the next note' },
  steadiedBy: 'overlaps-next',
});
