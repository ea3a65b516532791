import { type Fragment, oneOrList, refersTo } from '../../yaml/index.js';
import { deals } from '../types.js';

/** A track of the source, and what becomes of it. */
export const partSchemas = {
  desk: {
    description: 'How many players a desk has.',
    type: 'integer',
    minimum: 1,
    maximum: 1000,
  },
  part: {
    description: 'A track of the source, and what becomes of it.',
    type: 'object',
    additionalProperties: false,
    required: ['name', 'map'],
    if: { required: ['channel'] },
    else: { required: ['track'] },
    properties: {
      name: refersTo('label', { description: "The part's name, for --part and messages; each has its own." }),
      track: {
        description:
          "The source's track: its name, or its number counted from 1. Left out, the one that has notes on the channel.",
        type: ['string', 'integer'],
        minimum: 1,
        maximum: 65535,
      },
      channel: {
        description:
          'Only the notes of this channel, 1 to 16. Of a source of format 0, whose channels share a track, each channel becomes a track of the result.',
        type: 'integer',
        minimum: 1,
        maximum: 16,
      },
      map: refersTo('path', { description: 'The map of the library that plays it.' }),
      timing: refersTo('timing'),
      layers: {
        description: 'Libraries that double notes of this part.',
        type: 'array',
        minItems: 1,
        maxItems: 50,
        items: refersTo('layer'),
      },
      players: {
        description: 'How many players it should sound like; the map says how many were recorded.',
        type: 'integer',
        minimum: 1,
        maximum: 1000,
      },
      divide: {
        description:
          'Deals the notes of each chord to the players of the part. A note of n of N players is 10 · log10(n/N) dB softer than all of them; a single note is played by all. It goes to the velocity of notes that are loud by velocity, and to the level-controller for those that are loud by a controller.',
        type: 'object',
        additionalProperties: false,
        required: ['players'],
        properties: {
          by: {
            description:
              'top-down: desks are dealt from the highest note down; a desk with several notes shares them among its players. bottom-up: from the lowest note up. in-turn: player by player from the top down, whatever their desk. What does not come out even goes to the first notes.',
            enum: [...deals],
            default: 'top-down',
          },
          players: {
            description:
              'How many players each desk has; all together, they are the players of the part. [6, 6] is twelve.',
            ...oneOrList('desk', { minItems: 1, maxItems: 100 }),
          },
        },
      },
      level: refersTo('decibel', { description: 'How much louder or softer than its library it is.' }),
      seat: refersTo('seat', {
        description:
          'Where on the stage it is to be heard. The recording is moved half the way there from its own seat; layers are put where the part is heard.',
      }),
      dynamics: refersTo('dynamics'),
    },
  },
} satisfies Record<string, Fragment>;
