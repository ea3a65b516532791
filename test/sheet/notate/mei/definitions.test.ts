import { expect, it } from 'vitest';
import { notate } from '../../../../src/sheet/notate/index.js';
import { abbreviated } from '../../../../src/sheet/notate/mei/abbreviated.js';
import { clockWith, scoreOf, staffOf } from '../scores.js';
import { named } from '../written.js';

it('each part has a staff and an empty line below it', () => {
  const { mei } = notate(scoreOf([staffOf([[0, 4, 60]]), staffOf([[0, 4, 40]])]));
  const staves = named(mei, 'staffDef').map(({ attribs }) => `${attribs.n}: ${attribs.lines}`);
  expect(staves).toEqual(['1: 5', '2: 1', '3: 5', '4: 1']);
  expect(named(mei, 'clef').map(({ attribs }) => attribs.shape)).toEqual(['G', 'F']);
  expect(named(mei, 'mSpace')).toHaveLength(2);
});

it('a change of meter reaches the empty lines, unseen', () => {
  const { mei } = notate(scoreOf([staffOf([[0, 8, 60]])], { clock: clockWith([[4, 3, 4]]) }));
  const signs = named(mei, 'meterSig').map(
    ({ attribs }) => `${attribs.count}/${attribs.unit} ${attribs.visible ?? ''}`,
  );
  expect(signs).toEqual(['4/4 ', '4/4 false', '3/4 ', '3/4 false']);
});

it.each([
  ['Horns', 'Horns'],
  ['Violins div. 1', 'Viol. div. 1'],
  ['Kontrabässe', 'Kont.'],
  ['Trumpets in C', 'Trum. in C'],
  ['  Oboe ', 'Oboe'],
])('%s is shortened to %s', (name, short) => {
  expect(abbreviated(name)).toBe(short);
});
