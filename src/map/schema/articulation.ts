import { type Fragment, oneOrList, refersTo } from '../../yaml/index.js';
import { switchMessageSchema } from '../switch-messages/index.js';

/** An articulation, and how it is switched in. */
export const articulationSchemas = {
  'switch-message': switchMessageSchema(),
  switch: {
    description:
      'The message that switches the recording in, or a list of messages, sent in that order. Without it, nothing is sent: with momentary keys, that is the recording that sounds when no key is held.',
    ...oneOrList('switch-message', { maxItems: 16 }),
  },
  'time-step': {
    description: 'A time, and for which notes it holds.',
    type: 'object',
    additionalProperties: false,
    required: ['is'],
    properties: {
      when: refersTo('condition', {
        description: 'Which notes; the last step has none, and holds for all others.',
      }),
      is: refersTo('duration', {
        description: 'The time for these notes.',
      }),
    },
  },
  'speaks-after': {
    description:
      'The time from note-on until the note is heard to begin: one duration, or a list of steps read from the top, the last without a when (fast joined notes often speak sooner). Used by --compensate.',
    default: '0ms',
    ...oneOrList('duration', { minItems: 1, maxItems: 32 }, 'time-step'),
  },
  overlap: {
    description:
      'How far a joined note is held over the next onset: one duration, or a list of steps read from the top, the last without a when.',
    ...oneOrList('duration', { minItems: 1, maxItems: 32 }, 'time-step'),
  },
  articulation: {
    description: 'One recording of the library and how it is switched in.',
    type: 'object',
    additionalProperties: false,
    properties: {
      means: refersTo('meanings', {
        description:
          'The marks of notation that this sound realises, or a class and subclass of M2-123 by printed names (staccatos-and-shorts/spiccato). A note so marked gets it, where no rule asks for the mark.',
        default: [],
      }),
      switch: refersTo('switch'),
      key: refersTo('pitch', {
        description:
          'The key on which its notes go out, whatever was played, as a percussion library has its strokes. It lies inside the range, and is no switch key; transpose does not move it.',
      }),
      velocity: {
        description: 'How velocities are sent, for a library whose velocity picks the recording.',
        type: 'object',
        additionalProperties: false,
        required: ['into'],
        properties: {
          into: {
            description:
              'Played velocities 1 to 127 are laid evenly into this range, lowest and highest, so that 1 becomes the lowest and 127 the highest.',
            type: 'array',
            items: { type: 'integer', minimum: 1, maximum: 127 },
            minItems: 2,
            maxItems: 2,
          },
        },
      },
      joins: {
        description: 'The recording joins notes: used by --joins.',
        type: 'object',
        additionalProperties: false,
        required: ['overlap'],
        properties: {
          overlap: refersTo('overlap'),
        },
      },
      length: {
        description:
          'The shortest and the longest time that its notes may be held, where the library needs that: used by --joins.',
        type: 'object',
        additionalProperties: false,
        minProperties: 1,
        properties: {
          min: refersTo('duration', { description: 'Shorter notes are lengthened to this.' }),
          max: refersTo('duration', { description: 'Longer notes are shortened to this.' }),
        },
      },
      loudness: {
        description: 'What makes it louder: the velocity of its notes, or the dynamics controller.',
        enum: ['velocity', 'controller'],
        default: 'velocity',
      },
      'speaks-after': refersTo('speaks-after'),
      'stand-in': {
        description:
          'What keyslip hear plays it with, from a bank of General MIDI sounds. Left out, means and family say it.',
        type: 'object',
        additionalProperties: false,
        minProperties: 1,
        properties: {
          program: refersTo('midi-value', {
            description: 'The program on the wire, one less than in printed lists.',
          }),
          key: refersTo('pitch', {
            description: 'The key on which all its notes sound; without a program, of the drum kit.',
          }),
          length: {
            description:
              'How long its notes sound: a share of the time for which they are held, or at most this long.',
            anyOf: [refersTo('percentage'), refersTo('duration')],
          },
          velocity: refersTo('share', { description: 'What velocities are multiplied by.' }),
        },
      },
    },
  },
} satisfies Record<string, Fragment>;
