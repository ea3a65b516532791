import { expect, it } from 'vitest';
import { barRanges } from '../../../src/music/mechanical/bars.js';

const bar = (number: number, count: number, of: number) => ({ bar: number, count, of });

it('joins successive bars, over bars with nothing to look at', () => {
  expect(barRanges([bar(1, 4, 4), bar(2, 0, 0), bar(3, 4, 4), bar(4, 1, 4), bar(5, 4, 4)], 0.9, 1)).toEqual([
    { from: 1, to: 3 },
    { from: 5, to: 5 },
  ]);
});

it('asks for enough of them together', () => {
  expect(barRanges([bar(1, 3, 3), bar(2, 4, 4)], 1, 8)).toEqual([]);
  expect(barRanges([bar(1, 4, 4), bar(2, 4, 4)], 1, 8)).toEqual([{ from: 1, to: 2 }]);
});

it('takes any share where it is 0, but not none', () => {
  expect(barRanges([bar(1, 1, 50), bar(2, 0, 50), bar(3, 1, 9)], 0, 1)).toEqual([
    { from: 1, to: 1 },
    { from: 3, to: 3 },
  ]);
});
