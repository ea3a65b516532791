import { durationCondition } from './duration-condition.js';

/** `pace`: onset to the next onset in the part; the last note has its held time. */
export const pace = durationCondition('pace', {
  description: "From the note's onset to the next onset in the part. The last note has its held time.",
  example: { below: '1/8' },
  measure: ({ pace }) => pace,
  steadiedBy: 'pace',
});
