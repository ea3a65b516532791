import { type Fragment, refersTo } from '../../yaml/index.js';

/** How and when switches are sent. */
export const switchingSchema = {
  description: 'How and when switches are sent.',
  type: 'object',
  additionalProperties: false,
  properties: {
    notes: {
      description:
        'latching: a key switches until another is struck. momentary: a key works while it is held.',
      enum: ['latching', 'momentary'],
      default: 'latching',
    },
    lead: refersTo('duration', {
      description: 'How long before its note a switch is sent; later where it would reach the note before.',
      default: '20ms',
    }),
    tap: refersTo('duration', { description: 'How long a latching key is held down.', default: '30ms' }),
    velocity: {
      description: 'The velocity of switch notes.',
      type: 'integer',
      minimum: 1,
      maximum: 127,
      default: 100,
    },
    restate: {
      description:
        'When to send a switch that is already in force, so that playback may start in the middle. Never, if left out.',
      type: 'object',
      additionalProperties: false,
      properties: {
        'after-rest': refersTo('duration', {
          description: 'Before a note that follows at least this much silence.',
        }),
        'every-bars': {
          description: 'Before the first note at least this many bars after it was last sent.',
          type: 'integer',
          minimum: 1,
          maximum: 1000,
        },
      },
    },
  },
} satisfies Fragment;
