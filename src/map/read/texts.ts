import type { SchemaTexts } from '../../yaml/index.js';
import { formatKinds } from '../switch-messages/index.js';
import { forms } from './validator.generated.js';

/** How the schema's definitions are spoken of where a value does not have their form. */
export const mapTexts: SchemaTexts = {
  forms: {
    duration: {
      code: 'bad-duration',
      is: 'duration',
      hint: 'write a time (25ms, 0.5s) or a fraction of a whole note (1/16)',
    },
    pitch: {
      code: 'bad-pitch',
      is: 'pitch',
      hint: 'write a note (C3, F#4, Bb2) or a MIDI note from 0 to 127',
    },
    name: {
      code: 'bad-name',
      is: 'name',
      hint: 'names have lower-case letters, digits and hyphens, and begin with a letter',
    },
    share: { code: 'bad-percentage', is: 'share', hint: 'write it as 47%, or 120%' },
    percentage: { code: 'bad-percentage', is: 'share', hint: 'write it as 15%' },
  },
  choice: `give exactly one of ${formatKinds(false)}; several messages make a list`,
  needed: {
    instrument:
      'it is needed; a file that only lends to other maps is checked with a map that names it as base',
  },
  names: forms,
};
