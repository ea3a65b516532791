import { mapTexts } from '../../map/index.js';
import type { SchemaTexts } from '../../yaml/index.js';
import { forms } from './validator.generated.js';

/** How the schema's definitions are spoken of where a value does not have their form. */
export const cueTexts: SchemaTexts = {
  ...mapTexts,
  forms: {
    ...mapTexts.forms,
    time: { code: 'bad-duration', is: 'time', hint: 'write it as 18ms, up to 1s' },
    fraction: { code: 'bad-duration', is: 'grid', hint: 'write a fraction of a whole note: 1/16' },
  },
  names: forms,
};
