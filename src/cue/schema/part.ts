import { type Fragment, refersTo } from '../../yaml/index.js';

/** A track of the source, and what becomes of it. */
export const partSchemas = {
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
      level: refersTo('decibel', { description: 'How much louder or softer than its library it is.' }),
      seat: refersTo('seat', {
        description:
          'Where on the stage it is to be heard. The recording is moved half the way there from its own seat; layers are put where the part is heard.',
      }),
      dynamics: refersTo('dynamics'),
    },
  },
} satisfies Record<string, Fragment>;
