import { type Fragment, refersTo } from '../../yaml/index.js';

/** A rule. */
export const ruleSchemas = {
  rule: {
    description:
      'Which articulation notes get that fit. With marked and when, both must fit; with neither, every note does.',
    type: 'object',
    additionalProperties: false,
    required: ['use'],
    properties: {
      marked: refersTo('marks', { description: 'Fits notes that carry one of these marks in the music.' }),
      when: refersTo('condition', { description: 'Fits notes that are like this.' }),
      use: {
        description:
          "The articulation that they get: one of this map's. Whether it has one of that name, keyslip check tells.",
        type: 'string',
      },
    },
  },
} satisfies Record<string, Fragment>;
