import { rollOrders } from '../../timing/index.js';
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
          'Give joined notes the overlap that their articulation asks for, and keep to the lengths of the map. With compensate, the overlap is measured from where the next note is heard to begin.',
        type: 'boolean',
        default: false,
      },
      pull: refersTo('percentage', {
        description:
          'How far onsets are pulled towards the grid: 60%. A chord is pulled as one, and keeps its spread; onsets that would come onto or past the next are held back.',
      }),
      grid: {
        description: 'The grid to pull to, or a list of several; found from the playing, if left out.',
        ...oneOrList('fraction', { minItems: 1, maxItems: 8 }),
      },
      roll: refersTo('time', {
        description:
          'Spread chords as several players would: the standard deviation of one player, 18ms. Published figures are mostly of differences between two players, which are √2 larger: 30ms there is 21ms here.',
      }),
      'roll-order': {
        description:
          'The order in which chords are spread. top-first: as unordered, but the highest note comes first, as pianists play it.',
        enum: [...rollOrders],
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
