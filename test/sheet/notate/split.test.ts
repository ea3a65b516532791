import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { divisionOf } from '../../../src/sheet/notate/division.js';
import { QUARTER, WHOLE } from '../../../src/sheet/notate/measures.js';
import { split } from '../../../src/sheet/notate/split.js';
import { writtenValue } from '../../../src/sheet/notate/values.js';
import { draws } from '../../support/draws.js';

const units = [1, 2, 4, 8, 16];

/** Values in quarters, of a stretch in quarters. */
function valuesOf(from: number, to: number, count: number, unit: number, isRest = false): readonly number[] {
  const division = divisionOf({ count, unit });
  return split({ start: from * QUARTER, end: to * QUARTER }, division, isRest).map(
    ({ start, end }) => (end - start) / QUARTER,
  );
}

// Common practice, no source, unless another one is named.
describe('notes in a bar', () => {
  it.each([
    // 4/4: the middle is hidden only from the first beat on, or by a plain syncopation.
    ['4/4', 0, 4, [4]],
    ['4/4', 0, 3, [3]],
    ['4/4', 1, 3, [2]],
    ['4/4', 1, 2.5, [1, 0.5]],
    ['4/4', 1.5, 2.5, [0.5, 0.5]],
    ['4/4', 1, 4, [1, 2]],
    ['4/4', 0, 2.5, [2, 0.5]],
    ['4/4', 0.5, 1.5, [1]],
    ['4/4', 2.5, 4, [1.5]],
    ['4/4', 0.25, 0.75, [0.5]],
    ['4/4', 0.25, 1, [0.75]],
    ['4/4', 0.75, 1.25, [0.25, 0.25]],
    ['3/4', 1, 3, [2]],
    ['3/4', 0, 3, [3]],
    ['3/4', 0.5, 3, [0.5, 2]],
    // Dotted beats: what crosses them is tied.
    ['6/8', 0, 3, [3]],
    ['6/8', 0, 1.5, [1.5]],
    ['6/8', 0.5, 1.5, [1]],
    ['6/8', 1, 2, [0.5, 0.5]],
    ['6/8', 0, 2, [1.5, 0.5]],
    ['12/8', 0, 6, [6]],
    ['12/8', 1.5, 4.5, [1.5, 1.5]],
    ['5/4', 0, 5, [3, 2]],
    ['7/8', 0, 3.5, [2, 1.5]],
  ])('%s: %d to %d quarters', (meter, from, to, expected) => {
    const [count = 4, unit = 4] = meter.split('/').map(Number);
    expect(valuesOf(from, to, count, unit)).toEqual(expected);
  });
});

describe('rests in a bar', () => {
  it.each([
    ['4/4', 1, 4, [1, 2]],
    ['4/4', 1, 3, [1, 1]],
    ['4/4', 0.5, 4, [0.5, 1, 2]],
    ['3/4', 1, 3, [1, 1]],
    ['6/8', 1.5, 3, [1.5]],
    ['6/8', 0, 1, [1]],
    ['6/8', 0.5, 1.5, [0.5, 0.5]],
  ])('%s: %d to %d quarters', (meter, from, to, expected) => {
    const [count = 4, unit = 4] = meter.split('/').map(Number);
    expect(valuesOf(from, to, count, unit, true)).toEqual(expected);
  });
});

it('cuts any stretch of any bar into plain and dotted values that fill it without a gap', () => {
  const bars = fc.tuple(fc.integer({ min: 1, max: 15 }), fc.constantFrom(...units));
  fc.assert(
    fc.property(bars, fc.nat(), fc.nat(), fc.boolean(), ([count, unit], a, b, isRest) => {
      const length = (count * WHOLE) / unit;
      // Places on 1024ths, the shortest value.
      const [start = 0, end = 0] = [a % (length / 3), b % (length / 3)]
        .sort((x, y) => x - y)
        .map((at) => 3 * at);
      const pieces = split({ start, end }, divisionOf({ count, unit }), isRest);
      let at = start;
      for (const piece of pieces) {
        expect(piece.start).toBe(at);
        expect(writtenValue(piece.end - piece.start)).toBeDefined();
        at = piece.end;
      }
      expect(at).toBe(end);
    }),
    { numRuns: draws(2000) },
  );
});
