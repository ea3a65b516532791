import { yesNoCondition } from './yes-no-condition.js';

/** `repeats-previous`: the same pitch as the previous onset's top note. */
export const repeatsPrevious = yesNoCondition('repeats-previous', {
  description: "Whether the note has the pitch of the previous onset's top note.",
  answer: (note) => note.repeatsPrevious,
  said: { yes: 'repeats the previous pitch', no: 'does not repeat the previous pitch' },
});
