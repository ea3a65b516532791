import { type Fragment, refersTo } from '../../yaml/index.js';

/** An example and its notes. */
export const exampleSchemas = {
  'example-note': {
    description: 'A note of an example.',
    type: 'object',
    additionalProperties: false,
    required: ['pitch', 'held'],
    properties: {
      pitch: refersTo('pitch'),
      held: refersTo('duration', { description: 'From onset to release.' }),
      pace: refersTo('duration', {
        description:
          "From its onset to the next note's. Left out, the next note follows 20 ms after the release; 0ms makes a chord of the two.",
      }),
      velocity: {
        description: 'The note-on velocity.',
        type: 'integer',
        minimum: 1,
        maximum: 127,
        default: 80,
      },
      marked: refersTo('marks', { description: 'Marks that the note carries.' }),
    },
  },
  example: {
    description: 'Notes, and the articulations that they must get. keyslip check runs it.',
    type: 'object',
    additionalProperties: false,
    required: ['notes', 'expect'],
    properties: {
      notes: {
        description: 'The notes, one after another.',
        type: 'array',
        minItems: 1,
        maxItems: 1000,
        items: refersTo('example-note'),
      },
      expect: {
        description:
          'One articulation for each note. Whether the numbers agree, and what the notes get, keyslip check tells.',
        type: 'array',
        items: {
          description: 'An articulation of this map; keyslip check tells whether it has it.',
          type: 'string',
        },
      },
      bpm: {
        description: 'Quarter notes per minute; what fractions are measured by.',
        type: 'number',
        minimum: 5,
        maximum: 1000,
        default: 120,
      },
    },
  },
} satisfies Record<string, Fragment>;
