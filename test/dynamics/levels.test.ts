import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  dynamicMarks,
  identityLevels,
  levelOfMark,
  levelScale,
  loudest,
  rescaler,
  withinMarks,
} from '../../src/dynamics/levels.js';
import { draws } from '../support/draws.js';

const run = { seed: 21, numRuns: draws(200) };
const everyValue = Array.from({ length: 128 }, (_, value) => value);

/** Any part of the marks, with rising values. */
const tables = fc
  .tuple(
    fc.subarray([...dynamicMarks], { minLength: 1 }),
    fc.uniqueArray(fc.integer({ min: 0, max: 127 }), { minLength: 8, maxLength: 8 }),
  )
  .map(([marks, values]) => {
    const rising = values.toSorted((a, b) => a - b);
    return new Map(marks.map((mark, index) => [mark as string, rising[index] ?? 0]));
  });

const example = new Map([
  ['pp', 14],
  ['p', 34],
  ['mp', 54],
  ['mf', 72],
  ['f', 94],
  ['ff', 118],
]);

describe('levelScale', () => {
  it('has each mark’s own value, and holds the ends', () => {
    const scale = levelScale(example);
    expect([...example.keys()].map((mark) => scale(levelOfMark(mark) ?? Number.NaN))).toEqual([
      ...example.values(),
    ]);
    expect([scale(0), scale(-3), scale(7), scale(99)]).toEqual([14, 14, 118, 118]);
  });

  it('never falls, and stays between the marks beside it', () => {
    fc.assert(
      fc.property(tables, (table) => {
        const scale = levelScale(table);
        let before = Number.NEGATIVE_INFINITY;
        for (let level = -1; level <= loudest + 1; level += 1 / 64) {
          expect(scale(level)).toBeGreaterThanOrEqual(before - 1e-9);
          before = scale(level);
        }
        for (const [mark, value] of table) expect(scale(levelOfMark(mark) ?? Number.NaN)).toBe(value);
      }),
      run,
    );
  });

  it('is halfway between two marks of the identity table', () => {
    expect(levelScale(identityLevels)(4.5)).toBeCloseTo(82.5, 12);
  });

  it('refuses a table without marks', () => {
    expect(() => levelScale(new Map([['loud', 3]]))).toThrow(RangeError);
  });
});

describe('rescaler', () => {
  it('gives every value back unchanged for the identity table, and for any part of it', () => {
    expect(everyValue.map(rescaler(identityLevels))).toEqual(everyValue);
    fc.assert(
      fc.property(fc.subarray([...identityLevels], { minLength: 1 }), (part) => {
        expect(everyValue.map(rescaler(new Map(part)))).toEqual(everyValue);
      }),
      run,
    );
  });

  it('gives every value back unchanged between a table and itself', () => {
    fc.assert(
      fc.property(tables, (table) => {
        expect(everyValue.map(rescaler(table, table))).toEqual(everyValue);
      }),
      run,
    );
  });

  it('takes each mark of the one to that mark of the other', () => {
    const rescale = rescaler(example);
    for (const [mark, value] of example) expect(rescale(identityLevels.get(mark) ?? 0)).toBe(value);
  });

  it('never turns a rise into a fall, ends at 0 and 127, and has whole values', () => {
    fc.assert(
      fc.property(tables, tables, (to, from) => {
        const values = everyValue.map(rescaler(to, from));
        expect([values[0], values[127]]).toEqual([0, 127]);
        values.forEach((value, index) => {
          expect(Number.isInteger(value)).toBe(true);
          expect(value).toBeGreaterThanOrEqual(values[index - 1] ?? 0);
        });
      }),
      run,
    );
  });
});

describe('marks', () => {
  it('have levels in their order', () => {
    expect(dynamicMarks.map(levelOfMark)).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
    expect(levelOfMark('mezzo')).toBeUndefined();
    expect([-2, 3.5, 9].map(withinMarks)).toEqual([0, 3.5, 7]);
  });
});
