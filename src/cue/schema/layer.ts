import { type Fragment, refersTo } from '../../yaml/index.js';

/** A second library that doubles notes of a part. */
export const layerSchemas = {
  layer: {
    description:
      "A second library, or another articulation of the same, that doubles chosen notes of the part, on a track of its own, with the part's controllers, pitch bends and pressure.",
    type: 'object',
    additionalProperties: false,
    required: ['name'],
    anyOf: [{ required: ['map'] }, { required: ['articulation'] }],
    properties: {
      name: refersTo('label', {
        description: "The layer's name; its track is named after the part and this.",
      }),
      map: refersTo('path', { description: "The layer's map; the part's own, if left out." }),
      articulation: refersTo('name', {
        description: 'The articulation of that map that all its notes get; as the map decides, if left out.',
      }),
      channel: {
        description: "Its notes go out on this channel, 1 to 16; on the part's, if left out.",
        type: 'integer',
        minimum: 1,
        maximum: 16,
      },
      on: {
        description:
          'Which notes of the part it doubles; all of them, if left out. With marked and when, both must fit.',
        type: 'object',
        additionalProperties: false,
        minProperties: 1,
        properties: {
          marked: refersTo('marks', {
            description: "Notes that carry one of these marks in the music; marks as in the part's map.",
          }),
          when: refersTo('condition', { description: 'Notes that are like this, measured in the part.' }),
          each: {
            description:
              'chord: notes struck together are doubled all or none, as the strongest of them asks. note: each as it asks itself.',
            enum: ['chord', 'note'],
            default: 'chord',
          },
        },
      },
      velocity: {
        description: "The velocity of its notes, from that of the part's.",
        type: 'object',
        additionalProperties: false,
        minProperties: 1,
        properties: {
          scale: {
            description: "The part's velocity is multiplied by this.",
            type: 'number',
            minimum: 0,
            maximum: 10,
            default: 1,
          },
          add: {
            description: 'This is added then.',
            type: 'number',
            minimum: -127,
            maximum: 127,
            default: 0,
          },
        },
      },
      'held-at-most': refersTo('duration', { description: 'Longer notes are released after this.' }),
      transpose: {
        description: 'In semitones; -12 is an octave lower.',
        type: 'integer',
        minimum: -48,
        maximum: 48,
        default: 0,
      },
      timing: refersTo('layer-timing'),
      seat: refersTo('seat', {
        description:
          'Where on the stage the layer is to be heard, if not where the part is; it is moved half the way there from its own seat.',
      }),
      level: refersTo('decibel', {
        description:
          'How much louder or softer than the part it is; the part then has a level too, 0 if it gives none.',
      }),
    },
  },
} satisfies Record<string, Fragment>;
