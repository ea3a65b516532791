import { expect, it } from 'vitest';
import { sentBy } from '../../src/sheet/sent.js';
import { readWhole } from '../support/map.js';

it('what is sent is said as the map spells it, channels and programs as they are counted there', () => {
  const map = readWhole(`format: keyslip-map/1
library: Test
instrument: Test
family: other
note-60: C3
range: [C2, C5]
articulations:
  a: {switch: {note: C-2}}
  b: {switch: [{controller: 20, value: 64}, {note: D-2}]}
  c: {switch: {program: 5, bank: [1, 2]}}
  d: {switch: {channel: 7}}
rules: [{use: a}]
`);
  expect(['a', 'b', 'c', 'd'].map((name) => sentBy(map, name))).toEqual([
    'C-2',
    'CC 20 = 64 and D-2',
    'program 5, bank 1/2',
    'channel 7',
  ]);
});
