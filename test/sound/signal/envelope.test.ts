import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  decibelsOf,
  firstRise,
  hannSmoothed,
  median,
  quantile,
  spread,
} from '../../../src/sound/signal/index.js';
import { draws } from '../../support/draws.js';

/** The definition, term by term. */
function slowly(power: readonly number[], width: number): readonly number[] {
  const half = Math.max(1, width / 2);
  const reach = Math.ceil(half) - 1;
  const weight = (offset: number) => (1 + Math.cos((Math.PI * offset) / half)) / 2;
  const offsets = Array.from({ length: 2 * reach + 1 }, (_, index) => index - reach);
  const total = offsets.reduce((sum, offset) => sum + weight(offset), 0);
  return power.map(
    (_, at) => offsets.reduce((sum, offset) => sum + weight(offset) * (power[at + offset] ?? 0), 0) / total,
  );
}

describe('smoothing by a Hann window', () => {
  it('is what the definition gives', () => {
    const powers = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 200 });
    fc.assert(
      fc.property(powers, fc.double({ min: 2, max: 80, noNaN: true }), (power, width) => {
        const expected = slowly(power, width);
        hannSmoothed(power, width).forEach((value, at) => {
          expect(Math.abs(value - (expected[at] ?? 0))).toBeLessThan(1e-9);
        });
      }),
      { seed: 2, numRuns: draws(100) },
    );
  });

  it('does not delay: a step is half way up where it stands', () => {
    const power = Float64Array.from({ length: 1000 }, (_, at) => (at >= 500 ? 1 : 0));
    const smooth = hannSmoothed(power, 160);
    expect(((smooth[499] ?? 0) + (smooth[500] ?? 0)) / 2).toBeCloseTo(0.5, 9);
    expect(smooth[418]).toBeCloseTo(0, 9);
    expect(smooth[582]).toBeCloseTo(1, 9);
  });
});

describe('where a level rises to a threshold', () => {
  it('lies between the steps, by a straight line in dB', () => {
    expect(firstRise([-60, -40, -20, 0], -25, 0)).toBeCloseTo(1.75, 12);
    expect(firstRise([-60, -40, -20, 0], -40, 0)).toBeCloseTo(1, 12);
  });

  it('is the first one, from where the search begins', () => {
    expect(firstRise([0, -60, 0, -60, 0], -30, 1)).toBeCloseTo(1.5, 12);
    expect(firstRise([0, -60, 0, -60, 0], -30, 3)).toBeCloseTo(3.5, 12);
    expect(firstRise([0, -60], -30, 0)).toBe(0);
  });

  it('is nowhere where it is not reached', () => {
    expect(firstRise([-60, -50], -30, 0)).toBeUndefined();
    expect(firstRise([-60, 0], -30, 0, 1)).toBeUndefined();
  });

  it('knows silence', () => {
    expect([...decibelsOf([1, 0.01, 0])]).toEqual([0, -20, -200]);
  });
});

describe('middles and spreads', () => {
  it('are those of the handbook (quantiles with straight lines between: Hyndman & Fan 1996, type 7)', () => {
    expect(median([3, 1, 2])).toBe(2);
    expect(median([4, 1, 2, 3])).toBe(2.5);
    expect(quantile([1, 2, 3, 4, 5], 0.25)).toBe(2);
    expect(spread([1, 2, 3, 4, 5])).toBe(2);
    expect([median([]), spread([7])]).toEqual([Number.NaN, 0]);
  });
});
