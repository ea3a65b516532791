import { durationCondition } from './duration-condition.js';

/** `held`: onset to release. */
export const held = durationCondition('held', {
  description: 'How long the note is held, from its onset to its release.',
  example: { below: '130ms' },
  measure: ({ held }) => held,
  steadiedBy: 'held',
});
