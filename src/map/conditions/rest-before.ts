import { durationCondition } from './duration-condition.js';

/** `rest-before`: silence before the note's onset; endless for the first. */
export const restBefore = durationCondition('rest-before', {
  description: "Silence before the note's onset; 0 where notes touch or overlap, endless before the first.",
  example: { from: '2s' },
  measure: ({ restBefore }) => restBefore,
  steadiedBy: undefined,
});
