import type { Fragment } from '../../yaml/index.js';
import { panValues } from '../types.js';

const left = (value: number): Fragment => ({
  description: `At ${value}: how much louder the right side becomes than the left, in dB: 0 or less.`,
  type: 'number',
  minimum: -120,
  maximum: 0,
});

const right = (value: number): Fragment => ({
  description: `At ${value}: how much louder the right side becomes than the left, in dB.`,
  type: 'number',
  minimum: 0,
  maximum: 120,
});

/** What controller 10 does to a library's recordings. */
export const panSchema = {
  description:
    'What controller 10 (pan) does to the recordings, against its value 64; used to place them. Stereo recordings answer it by far less than the pan law says, which holds where this is left out: keyslip measure finds it.',
  type: 'object',
  additionalProperties: false,
  required: ['left', 'right'],
  properties: {
    left: left(panValues.left),
    'half-left': left(panValues['half-left']),
    'half-right': right(panValues['half-right']),
    right: right(panValues.right),
  },
} satisfies Fragment;
