// The schema of maps, from which `schemas/map.schema.json` is written.
import { type Fragment, refersTo } from '../../yaml/index.js';
import { conditionSchemas } from '../conditions/index.js';
import { defaultChordWindow } from '../types.js';
import { articulationSchemas } from './articulation.js';
import { dynamicsSchema } from './dynamics.js';
import { exampleSchemas } from './example.js';
import { forms } from './forms.js';
import { panSchema } from './pan.js';
import { ruleSchemas } from './rule.js';
import { switchingSchema } from './switching.js';

export { forms } from './forms.js';

/**
 * The schema of maps as it is published (JSON Schema 2020-12), for one file as an editor sees it: what a base may lend is
 * asked for only where there is none.
 */
export function mapSchema(): Fragment {
  const { required, properties, $defs, ...head } = wholeMapSchema();
  const { required: ofDynamics, ...dynamics } = dynamicsSchema;
  return {
    ...head,
    properties: { ...properties, dynamics },
    if: { required: ['base'] },
    else: { required, properties: { dynamics: { required: ofDynamics } } },
    $defs,
  };
}

/** The schema of a map with all that its bases lend it; maps are judged by it. */
export function wholeMapSchema() {
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    $id: 'https://keyslip.invalid/schemas/map.schema.json',
    title: 'keyslip articulation map',
    description:
      'One instrument of one sample library: its recordings, how each is switched in, and which note gets which.',
    type: 'object',
    additionalProperties: false,
    required: ['format', 'library', 'instrument', 'family', 'note-60', 'range', 'articulations', 'rules'],
    properties: {
      format: { description: 'The format of this file.', const: 'keyslip-map/1' },
      library: { description: "The library's name.", type: 'string', minLength: 1, maxLength: 200 },
      instrument: {
        description: "The instrument's name, as the library gives it.",
        type: 'string',
        minLength: 1,
        maxLength: 200,
      },
      family: {
        description: 'The family that it belongs to.',
        enum: ['strings', 'woodwind', 'brass', 'percussion', 'keyboard', 'plucked', 'voice', 'other'],
      },
      players: {
        description: 'How many players were recorded together; used for balance.',
        type: 'integer',
        minimum: 1,
        maximum: 1000,
      },
      seat: {
        description:
          'Where the recording sits on the stage as it is: -1 left, 0 the middle, 1 right; used to place it.',
        type: 'number',
        minimum: -1,
        maximum: 1,
        default: 0,
      },
      width: {
        description: 'How much of the stage the recording fills: 0 a point, 1 all of it; used to place it.',
        type: 'number',
        minimum: 0,
        maximum: 1,
        default: 0,
      },
      pan: panSchema,
      'reference-level': {
        description:
          'How loud the library is at mf, in LUFS (ITU-R BS.1770): keyslip measure finds it, so that levels of several libraries can be set beside each other.',
        type: 'number',
        minimum: -100,
        maximum: 0,
      },
      base: {
        description:
          'A map in the folder of this one, or below it, that lends everything that is not said here. Articulations and levels of dynamics are merged by name, an articulation as a whole; rules, examples and every other key are taken whole from the map that has them. A chain has at most eight links.',
        type: 'string',
        minLength: 1,
        maxLength: 1000,
      },
      'note-60': {
        description:
          "How this library's manual spells MIDI note 60 (middle C); it fixes the octave of every pitch in this file.",
        enum: ['C3', 'C4', 'C5'],
      },
      range: {
        description: 'The playable range: lowest and highest sounding note.',
        type: 'array',
        items: refersTo('pitch'),
        minItems: 2,
        maxItems: 2,
      },
      transpose: {
        description:
          'Semitones that the library has to be sent over what is written (an octave-shifted patch: -12). Range, pitches of rules and examples stay as they sound; switch keys and keys of articulations are not moved.',
        type: 'integer',
        minimum: -60,
        maximum: 60,
        default: 0,
      },
      pedal: {
        description:
          'lengthens: a note counts as held until the sustain pedal (controller 64) is released. ignored: until its key is. Left out, the pedal lengthens where the family is keyboard or plucked.',
        enum: ['lengthens', 'ignored'],
      },
      switching: switchingSchema,
      chords: {
        description:
          'top: the highest note of a chord decides for all. each: every note decides for itself, which needs a library with a channel for each articulation.',
        enum: ['top', 'each'],
        default: 'top',
      },
      'chord-window': refersTo('duration', {
        description:
          'Notes within this of the first are one chord, where they sound on together for at least 0.7 of the time over which they were struck.',
        default: `${defaultChordWindow.ms}ms`,
      }),
      articulations: {
        description: 'The recordings, by names of your own.',
        type: 'object',
        minProperties: 1,
        maxProperties: 500,
        propertyNames: refersTo('name'),
        additionalProperties: refersTo('articulation'),
      },
      steadiness: refersTo('percentage', {
        description:
          'A note whose measure lies within this share of a bound may keep what its neighbours have, where that makes the line change less, so that a human performance does not flicker. 0% decides note by note.',
        default: '0%',
      }),
      rules: {
        description: 'Read from the top: the first rule that fits a note decides. The last has no condition.',
        type: 'array',
        minItems: 1,
        maxItems: 1000,
        items: refersTo('rule'),
      },
      dynamics: dynamicsSchema,
      examples: {
        description: 'Notes and what they must get: the map tests itself.',
        type: 'array',
        maxItems: 1000,
        items: refersTo('example'),
      },
    },
    $defs: {
      ...forms,
      ...conditionSchemas(),
      ...articulationSchemas,
      ...ruleSchemas,
      ...exampleSchemas,
    },
  } satisfies Fragment;
}
