import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { cueSchema } from '../../../src/cue/schema/index.js';

it('the committed schema of cues is what its fragments give: npm run schemas', () => {
  expect(readFileSync('schemas/cue.schema.json', 'utf8')).toBe(`${JSON.stringify(cueSchema(), null, 2)}\n`);
});
