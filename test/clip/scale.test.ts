import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { scaleUp } from '../../src/clip/index.js';

describe('scaleUp', () => {
  // M2-115-U 1.0.2, tables 5 and 6.
  it.each([
    [0, 0],
    [5, 0x0a00],
    [30, 0x3c00],
    [32, 0x4000],
    [64, 0x8000],
    [70, 0x8c30],
    [96, 0xc104],
    [120, 0xf1c7],
    [127, 0xffff],
  ])('takes %i of 7 bits to 16', (value, expected) => {
    expect(scaleUp(value, 7, 16)).toBe(expected);
  });

  it.each([
    [70, 0x8c30c30c],
    [96, 0xc1041041],
    [120, 0xf1c71c71],
    [127, 0xffffffff],
    [64, 0x80000000],
  ])('takes %i of 7 bits to 32', (value, expected) => {
    expect(scaleUp(value, 7, 32)).toBe(expected);
  });

  it('keeps ends, middle and order, and gives the value back when the added bits are cut', () => {
    const bits = fc.constantFrom([7, 16] as const, [7, 32] as const, [14, 32] as const, [7, 9] as const);
    fc.assert(
      fc.property(bits, fc.nat(), ([from, to], number) => {
        const value = number % 2 ** from;
        const scaled = scaleUp(value, from, to);
        expect(Math.floor(scaled / 2 ** (to - from))).toBe(value);
        expect(scaled).toBeLessThan(2 ** to);
        if (value > 0) expect(scaled).toBeGreaterThan(scaleUp(value - 1, from, to));
        expect(scaleUp(2 ** from - 1, from, to)).toBe(2 ** to - 1);
        expect(scaleUp(2 ** (from - 1), from, to)).toBe(2 ** (to - 1));
      }),
    );
  });
});
