import { defaultShape, dynamicMarks } from '../../dynamics/index.js';
import { type Fragment, refersTo } from '../../yaml/index.js';

/** Where the loudness of a part comes from. */
export const dynamicsSchemas = {
  'dynamic-mark': {
    description: 'A mark of loudness.',
    enum: dynamicMarks,
  },
  dynamics: {
    description: 'Where the loudness of the part comes from. Left out, everything stays as it was recorded.',
    type: 'object',
    additionalProperties: false,
    required: ['source'],
    properties: {
      source: {
        description:
          "keep: the recorded controller becomes the library's, rescaled to its levels; velocities, in a library where nothing is loud by a controller. shape: a curve made from the line itself, on top of the marks in the music. marks: the marks in the music ([mf], [cresc]) alone. shape and marks replace the recorded curve of the library's dynamics controller, and set the velocity of notes whose articulation is loud by velocity.",
        enum: ['keep', 'shape', 'marks'],
      },
      from: {
        description:
          "keep: the controller that was recorded; if left out, the one that moves most among 1, 2, 11 and the library's own. Its low byte (32 above it) goes with it.",
        type: 'integer',
        minimum: 0,
        maximum: 119,
      },
      levels: {
        description:
          'keep: the recorded values that sounded like these marks when they were played; rising. If left out, ppp is 15, and each mark 15 more.',
        type: 'object',
        additionalProperties: false,
        minProperties: 1,
        properties: Object.fromEntries(
          dynamicMarks.map((mark) => [
            mark,
            refersTo('midi-value', { description: `The value that sounded ${mark}.` }),
          ]),
        ),
      },
      start: refersTo('dynamic-mark', {
        description: 'shape and marks: how loud it is before the first mark in the music.',
        default: 'mf',
      }),
      arch: {
        description:
          'shape: how much louder the turn of a phrase is than its ends; 1 is from one mark to the next (p to mp).',
        type: 'number',
        minimum: 0,
        maximum: 4,
        default: defaultShape.arch,
      },
      velocities: {
        description: 'shape: how much of the differences of note velocity is taken over, 0 to 1.',
        type: 'number',
        minimum: 0,
        maximum: 1,
        default: defaultShape.velocities,
      },
      swell: {
        description: 'shape: by how much long notes swell; 1 is from one mark to the next.',
        type: 'number',
        minimum: 0,
        maximum: 4,
        default: defaultShape.swell,
      },
      decay: {
        description:
          'shape: by how much a long last note of a phrase decays; 1 is from one mark to the next.',
        type: 'number',
        minimum: 0,
        maximum: 4,
        default: defaultShape.decay,
      },
    },
  },
} satisfies Record<string, Fragment>;
