import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Numbers, picked } from '../../../src/midi/events/index.js';

/** Whole numbers, some of which 32 bits cannot say. */
const whole = fc.oneof(fc.integer(), fc.integer({ min: -(2 ** 40), max: 2 ** 40 }));

describe('numbers that grow', () => {
  it('are those that were put in, also where 32 bits cannot say them', () => {
    fc.assert(
      fc.property(fc.array(whole, { maxLength: 300 }), fc.nat(400), (put, expected) => {
        const numbers = new Numbers(expected);
        put.forEach((one, index) => {
          expect(numbers.push(one)).toBe(index);
        });
        expect(Array.from(numbers.column())).toEqual(put);
        expect(numbers.at(put.length)).toBe(0);
      }),
    );
  });
});

describe('picked', () => {
  it('has some of a column in another order, in a column of the same kind', () => {
    const column = Uint8Array.of(5, 6, 7);
    expect(picked(column, [2, 0, 0, 1])).toEqual(Uint8Array.of(7, 5, 5, 6));
    expect(picked(Float64Array.of(2 ** 40, 1), [1])).toEqual(Float64Array.of(1));
  });
});
