import { type Fragment, refersTo } from '../../yaml/index.js';

/** The controller that shapes loudness. */
export const dynamicsSchema = {
  description: 'The controller that shapes loudness, and what its values sound like.',
  type: 'object',
  additionalProperties: false,
  required: ['controller', 'levels'],
  properties: {
    controller: {
      description: "The controller's number, 0 to 119.",
      type: 'integer',
      minimum: 0,
      maximum: 119,
    },
    levels: {
      description: 'The controller values that sound like these marks; rising.',
      type: 'object',
      additionalProperties: false,
      minProperties: 1,
      properties: {
        ppp: refersTo('midi-value', { description: 'The value that sounds pianississimo.' }),
        pp: refersTo('midi-value', { description: 'The value that sounds pianissimo.' }),
        p: refersTo('midi-value', { description: 'The value that sounds piano.' }),
        mp: refersTo('midi-value', { description: 'The value that sounds mezzo-piano.' }),
        mf: refersTo('midi-value', { description: 'The value that sounds mezzo-forte.' }),
        f: refersTo('midi-value', { description: 'The value that sounds forte.' }),
        ff: refersTo('midi-value', { description: 'The value that sounds fortissimo.' }),
        fff: refersTo('midi-value', { description: 'The value that sounds fortississimo.' }),
      },
    },
  },
} satisfies Fragment;
