import { expect, it } from 'vitest';
import { engraversFor } from '../../../src/sheet/index.js';

it('a sheet that is drawn again has engraved only what is notated otherwise, and forgets what is gone', () => {
  const asked: string[] = [];
  const next = engraversFor((mei) => {
    asked.push(mei);
    return [];
  });
  const draw = (...pieces: readonly string[]) => {
    const engrave = next();
    asked.length = 0;
    for (const piece of pieces) engrave(piece, 0, 1);
    return [...asked];
  };
  expect(draw('a', 'b')).toEqual(['a', 'b']);
  expect(draw('a', 'c', 'b')).toEqual(['c']);
  expect(draw('a')).toEqual([]);
  expect(draw('b', 'a')).toEqual(['b']);
});
