import { durationCondition } from './duration-condition.js';

/** `held`: onset to release. */
export const held = durationCondition('held', {
  description: 'How long the note is held, from its onset to its release.',
  measure: ({ held }) => held,
  steadiedBy: 'held',
});
