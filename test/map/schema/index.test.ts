import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { mapSchema } from '../../../src/map/schema/index.js';

it('the committed schema of maps is what its fragments give: npm run schemas', () => {
  expect(readFileSync('schemas/map.schema.json', 'utf8')).toBe(`${JSON.stringify(mapSchema(), null, 2)}\n`);
});
