import { type Fragment, oneOrList, refersTo } from '../../yaml/index.js';

/** How texts and values of maps and cues are written. */
export const forms = {
  duration: {
    description:
      "A length of time: a number with ms or s (25ms, 0.5s), or a fraction of a whole note (1/16 a sixteenth, 1/12 a triplet eighth, 3/16 a dotted eighth). Times are measured in real time through the file's tempo; fractions in ticks.",
    type: 'string',
    pattern: '^(\\d{1,7}(\\.\\d{1,6})?(ms|s)|\\d{1,4}/[1-9]\\d{0,4})$',
    patternErrorMessage:
      'Write a length of time: a number with ms or s (25ms, 0.5s), or a fraction of a whole note (1/16).',
  },
  pitch: {
    description:
      "A note as the library's manual spells it (C3, F#4, Bb2; note-60 fixes the octave), or the MIDI note itself, 0 to 127.",
    type: ['string', 'integer'],
    pattern: '^[A-Ga-g][#b]?-?\\d{1,2}$',
    patternErrorMessage:
      "Write a note as the library's manual spells it (C3, F#4, Bb2), or a MIDI note from 0 to 127.",
    minimum: 0,
    maximum: 127,
  },
  name: {
    description: 'A name: lower-case letters, digits and hyphens, beginning with a letter.',
    type: 'string',
    pattern: '^[a-z][a-z0-9-]{0,63}$',
    patternErrorMessage:
      'Write a name in lower-case letters, digits and hyphens, beginning with a letter: staccato-2.',
  },
  mark: {
    description:
      'A mark: a MusicXML 4.0 articulation, technical or ornament element (staccato, snap-pizzicato, tremolo), a playing word (pizz., con sord.), or an articulation of this map. Whether it is known, keyslip check tells.',
    type: 'string',
    minLength: 1,
  },
  marks: {
    description: 'One mark or a list of marks.',
    ...oneOrList('mark', { minItems: 1 }),
  },
  meaning: {
    description:
      'A mark, or a class and subclass of the open standard M2-123 by their printed names, in lower case with hyphens: staccatos-and-shorts/spiccato.',
    type: 'string',
    minLength: 1,
  },
  meanings: {
    description: 'One meaning or a list of them.',
    ...oneOrList('meaning', { minItems: 1 }),
  },
  percentage: {
    description: 'A share, written as 15%; 0% to 100%.',
    type: 'string',
    pattern: '^(100(\\.0+)?|\\d{1,2}(\\.\\d{1,3})?)%$',
    patternErrorMessage: 'Write a share from 0% to 100%, with the sign: 15%.',
  },
  share: {
    description: 'A share that may be more than the whole, written as 47% or 120%; 0% to 1000%.',
    type: 'string',
    pattern: '^(1000|\\d{1,3}(\\.\\d{1,3})?)%$',
    patternErrorMessage: 'Write a share from 0% to 1000%, with the sign: 120%.',
  },
  'midi-value': {
    description: 'A MIDI data value, 0 to 127, as it is on the wire.',
    type: 'integer',
    minimum: 0,
    maximum: 127,
  },
  'duration-range': {
    description: 'From (inclusive) and below (exclusive); either may be left out.',
    type: 'object',
    additionalProperties: false,
    minProperties: 1,
    properties: {
      from: refersTo('duration', { description: 'The least that fits (inclusive).' }),
      below: refersTo('duration', { description: 'What no longer fits (exclusive).' }),
    },
  },
} satisfies Record<string, Fragment>;
