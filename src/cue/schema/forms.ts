import type { Fragment } from '../../yaml/index.js';

/** How values of cues are written. */
export const cueForms = {
  path: {
    description: "A path from this file's folder, with /; it stays below that folder.",
    type: 'string',
    minLength: 1,
    maxLength: 1000,
  },
  label: {
    description: 'A name of your own, as it is to be shown.',
    type: 'string',
    minLength: 1,
    maxLength: 100,
  },
  time: {
    description: 'A time, up to 1s: 18ms.',
    type: 'string',
    pattern: '^(\\d{1,3}(\\.\\d{1,3})?ms|1000ms|0(\\.\\d{1,3})?s|1s)$',
    patternErrorMessage: 'Write a time with ms or s, up to 1s: 18ms.',
  },
  fraction: {
    description: 'A fraction of a whole note: 1/16 a sixteenth, 1/12 a triplet eighth.',
    type: 'string',
    pattern: '^[1-9]\\d{0,2}/[1-9]\\d{0,2}$',
    patternErrorMessage: 'Write a fraction of a whole note: 1/16.',
  },
  decibel: { description: 'A difference of level in dB.', type: 'number', minimum: -60, maximum: 24 },
  seat: {
    description: 'A place on the stage: −1 left, 0 the middle, 1 right.',
    type: 'number',
    minimum: -1,
    maximum: 1,
  },
} satisfies Record<string, Fragment>;
