import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { finder, lastAtMost } from '../../src/midi/sorted.js';
import { draws } from '../support/draws.js';

describe('the last of ascending numbers that is at most a value', () => {
  it('is −1 where all are larger', () => {
    expect(lastAtMost([], 5)).toBe(-1);
    expect(lastAtMost([6, 7], 5)).toBe(-1);
    expect(finder([])(5)).toBe(-1);
    expect(finder([6, 7])(5)).toBe(-1);
  });

  it('is the last of equal ones', () => {
    expect(lastAtMost([1, 5, 5, 5, 6], 5)).toBe(3);
  });

  it('is found in whatever order one asks', () => {
    const ascending = fc
      .array(fc.integer({ min: -50, max: 50 }))
      .map((numbers) => numbers.sort((a, b) => a - b));
    fc.assert(
      fc.property(ascending, fc.array(fc.integer({ min: -60, max: 60 })), (numbers, values) => {
        const find = finder(numbers);
        for (const value of values) {
          const expected = numbers.filter((number) => number <= value).length - 1;
          expect(lastAtMost(numbers, value)).toBe(expected);
          expect(find(value)).toBe(expected);
        }
      }),
      { seed: 320, numRuns: draws(500) },
    );
  });
});
