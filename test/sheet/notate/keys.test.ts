import { expect, it } from 'vitest';
import { keysByBar } from '../../../src/sheet/notate/keys.js';
import { barByBar, measuresOf } from '../../../src/sheet/notate/measures.js';
import { clockWith, notateLine, PPQ } from './scores.js';
import { named } from './written.js';

const measures = measuresOf(clockWith(), barByBar({ bar: 1, bars: 4 }));

it('the first holds from the beginning, a change from the next bar line', () => {
  const keys = [
    { tick: 3000, fifths: 2 },
    { tick: 4 * PPQ + 1, fifths: -1 },
    { tick: 12 * PPQ, fifths: 9 },
  ];
  expect(keysByBar(keys, measures)).toEqual([2, 2, -1, 7]);
});

it('of two changes in one bar the later holds; without keys there is none', () => {
  const keys = [0, 5, 10].map((tick) => ({ tick, fifths: tick }));
  expect(keysByBar(keys, measures)).toEqual([0, 7, 7, 7]);
  expect(keysByBar([], measures)).toEqual([0, 0, 0, 0]);
});

it('stand on every staff but those of percussion and the lanes', () => {
  const keys = [
    { tick: 0, fifths: 3 },
    { tick: 4 * PPQ, fifths: -2 },
  ];
  const { mei } = notateLine([[0, 8, 60]], { keys });
  expect(named(mei, 'keySig').map(({ attribs }) => attribs.sig)).toEqual(['3s', '2f']);
});
