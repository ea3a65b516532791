import { yesNoCondition } from './yes-no-condition.js';

/** `repeats-next`: the same pitch as the next onset's top note. */
export const repeatsNext = yesNoCondition('repeats-next', {
  description: "Whether the note has the pitch of the next onset's top note. The last note has not.",
  answer: (note) => note.repeatsNext,
  said: { yes: 'repeats in the next note', no: 'does not repeat in the next note' },
});
