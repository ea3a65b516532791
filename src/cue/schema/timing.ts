import { type Fragment, oneOrList, refersTo } from '../../yaml/index.js';

/** What is done with a part's timing, and with a layer's. */
export const timingSchemas = {
  timing: {
    description: 'What is done with the timing; nothing, where nothing is said.',
    type: 'object',
    additionalProperties: false,
    properties: {
      compensate: {
        description: 'Start each note earlier by the time that its articulation needs to speak.',
        type: 'boolean',
        default: false,
      },
      joins: {
        description:
          'Give joined notes the overlap that their articulation asks for, and keep to the lengths of the map.',
        type: 'boolean',
        default: false,
      },
      pull: refersTo('percentage', { description: 'How far onsets are pulled towards the grid: 60%.' }),
      grid: {
        description: 'The grid to pull to, or a list of several; found from the playing, if left out.',
        ...oneOrList('fraction', { minItems: 1, maxItems: 8 }),
      },
      roll: refersTo('time', {
        description: 'Spread chords as several players would, by this standard deviation: 18ms.',
      }),
      'roll-order': {
        description: 'The order in which chords are spread.',
        enum: ['unordered', 'low-high', 'high-low'],
        default: 'unordered',
      },
      loosen: refersTo('time', {
        description:
          'Move single notes that are too exact off the grid, by up to this standard deviation: 8ms.',
      }),
    },
  },
  'layer-timing': {
    description:
      "The layer's own timing. Its notes follow the part's where those are pulled, rolled or loosened.",
    type: 'object',
    additionalProperties: false,
    properties: {
      compensate: {
        description: 'Start each note earlier by the time that its articulation needs to speak.',
        type: 'boolean',
        default: false,
      },
      joins: {
        description:
          'Give joined notes the overlap that their articulation asks for, and keep to the lengths of the map.',
        type: 'boolean',
        default: false,
      },
    },
  },
} satisfies Record<string, Fragment>;
