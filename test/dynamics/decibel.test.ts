import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decibels, faderFor, shifted } from '../../src/dynamics/decibel.js';
import { draws } from '../support/draws.js';

describe('decibels', () => {
  it('has the table of the General MIDI level 1 developer guidelines', () => {
    const table = [
      [127, 0],
      [96, -4.8],
      [64, -11.9],
      [32, -23.9],
      [16, -36],
    ] as const;
    for (const [value, level] of table) {
      // printed to a tenth, some cut off (96 is −4.86), some rounded (16 is −35.99)
      expect(Math.abs(decibels(value) - level), `${value}`).toBeLessThan(0.1);
      expect(decibels(127, value), `${value}`).toBe(decibels(value));
    }
    expect(decibels(0)).toBe(Number.NEGATIVE_INFINITY);
    expect(decibels(127, 0)).toBe(Number.NEGATIVE_INFINITY);
    // recomputed: 40 · log10(96/127), 40 · log10(1/127)
    expect(decibels(96)).toBeCloseTo(-4.8613, 4);
    expect(decibels(1)).toBeCloseTo(-84.152, 3);
  });

  it('adds both controllers in dB', () => {
    expect(decibels(64, 96)).toBeCloseTo(decibels(64) + decibels(96), 12);
  });
});

describe('faderFor', () => {
  it('gives every value back from its level, whatever the other is', () => {
    for (let value = 0; value <= 127; value += 1) {
      for (const other of [1, 32, 64, 96, 127]) {
        expect(faderFor(decibels(value, other), other).value).toBe(value);
      }
    }
  });

  it('has no other value whose level is nearer', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -120, max: 12, noNaN: true }),
        fc.integer({ min: 1, max: 127 }),
        (level, other) => {
          const { value, got } = faderFor(level, other);
          expect(got).toBe(decibels(value, other));
          for (let rival = 1; rival <= 127; rival += 1) {
            const away = Math.abs(decibels(rival, other) - level);
            expect(Math.abs(got - level)).toBeLessThanOrEqual(away + 1e-9);
          }
        },
      ),
      { seed: 2, numRuns: draws(200) },
    );
  });

  it('says how much is left up to 127, and how much is missing', () => {
    expect(faderFor(-6).headroom).toBeCloseTo(6, 12);
    expect(faderFor(3)).toEqual({ value: 127, got: 0, headroom: -3 });
    // with expression at 64 volume reaches −11.9 dB
    expect(faderFor(-10, 64).value).toBe(127);
    expect(faderFor(-10, 64).headroom).toBeCloseTo(-1.9, 1);
  });

  it('is silent only where silence is asked for', () => {
    expect(faderFor(Number.NEGATIVE_INFINITY).value).toBe(0);
    expect(faderFor(-300).value).toBe(1);
    expect(faderFor(-20, 0)).toEqual({
      value: 127,
      got: Number.NEGATIVE_INFINITY,
      headroom: Number.NEGATIVE_INFINITY,
    });
  });
});

describe('shifted', () => {
  it('leaves every value where it is for 0 dB', () => {
    for (let value = 0; value <= 127; value += 1) expect(shifted(value, 0).value).toBe(value);
  });

  it('halves a value with −12 dB (40 · log10 2), and keeps the order of a curve', () => {
    expect(shifted(100, -40 * Math.log10(2)).value).toBe(50);
    fc.assert(
      fc.property(fc.double({ min: -40, max: 20, noNaN: true }), (by) => {
        for (let value = 1; value <= 127; value += 1) {
          expect(shifted(value, by).value).toBeGreaterThanOrEqual(shifted(value - 1, by).value);
        }
      }),
      { seed: 4, numRuns: 50 },
    );
    expect(shifted(120, 6).headroom).toBeLessThan(0);
  });
});
