// The schema of cues, from which `schemas/cue.schema.json` is written.
import { conditionSchemas, forms } from '../../map/index.js';
import { type Fragment, refersTo } from '../../yaml/index.js';
import { dynamicsSchemas } from './dynamics.js';
import { cueForms } from './forms.js';
import { layerSchemas } from './layer.js';
import { partSchemas } from './part.js';
import { timingSchemas } from './timing.js';

/** The whole schema (JSON Schema 2020-12). What maps and cues share is written once, for maps. */
export function cueSchema(): Fragment {
  const { duration, pitch, name, mark, marks, 'duration-range': durationRange, percentage, share } = forms;
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    $id: 'https://keyslip.invalid/schemas/cue.schema.json',
    title: 'keyslip cue',
    description: 'One piece of music for one scene: how the tracks of a MIDI file become sound.',
    type: 'object',
    additionalProperties: false,
    required: ['format', 'source', 'output', 'parts'],
    properties: {
      format: { description: 'The format of this file.', const: 'keyslip-cue/1' },
      title: refersTo('label', { description: 'What the piece is called.' }),
      source: refersTo('path', { description: 'The MIDI file with the recording.' }),
      output: refersTo('path', { description: 'Where the result goes.' }),
      seed: {
        description: 'Another chance for roll and loosen.',
        type: 'integer',
        minimum: 0,
        maximum: 999999999,
        default: 1,
      },
      preroll: {
        description: 'So many empty bars before the music, so that nothing has to start before it.',
        type: 'integer',
        minimum: 0,
        maximum: 64,
        default: 0,
      },
      'note-60': {
        description: 'How pitches in this file spell MIDI note 60 (middle C).',
        enum: ['C3', 'C4', 'C5'],
        default: 'C4',
      },
      defaults: {
        description: 'What holds for every part that does not say otherwise.',
        type: 'object',
        additionalProperties: false,
        properties: { timing: refersTo('timing') },
      },
      parts: {
        description: 'The parts. Tracks that none of them names stay as they are.',
        type: 'array',
        minItems: 1,
        maxItems: 1000,
        items: refersTo('part'),
      },
      'level-controller': {
        description: 'The controller that levels are written to: 7 (volume) or 11 (expression).',
        enum: [7, 11],
        default: 7,
      },
      'reference-level': {
        description:
          'How loud measured libraries (those whose map has reference-level) are at mf and level 0, in LUFS. Left out, as loud as the softest of them, so that none has to be louder than it is.',
        type: 'number',
        minimum: -100,
        maximum: 0,
      },
      'seat-controller': {
        description: 'The controller that seats are written to: 10 (pan) or 8 (balance).',
        enum: [10, 8],
        default: 10,
      },
    },
    $defs: {
      duration,
      pitch,
      name,
      mark,
      marks,
      'duration-range': durationRange,
      percentage,
      share,
      'midi-value': forms['midi-value'],
      ...conditionSchemas(),
      ...cueForms,
      ...timingSchemas,
      ...dynamicsSchemas,
      ...layerSchemas,
      ...partSchemas,
    },
  };
}
