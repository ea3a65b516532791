import { durationCondition } from './duration-condition.js';

/** `rest-after`: silence after the note's onset; endless for the last. */
export const restAfter = durationCondition('rest-after', {
  description:
    "Silence after the note's onset until the next; 0 where notes touch or overlap, endless after the last.",
  example: { from: '1/4' },
  measure: ({ restAfter }) => restAfter,
  steadiedBy: undefined,
});
