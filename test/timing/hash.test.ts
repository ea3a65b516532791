import { describe, expect, it } from 'vitest';
import { boundedGaussianOf, farthest, gaussianOf, type NoteKey, uniformOf } from '../../src/timing/hash.js';

const key = (change: Partial<NoteKey> = {}): NoteKey => ({
  seed: 1,
  part: '2/1',
  pitch: 60,
  position: 960,
  occurrence: 0,
  ...change,
});

/** Keys as a piece of music has them: successive places, few pitches. */
const keys = Array.from({ length: 40_000 }, (_, index) =>
  key({ position: Math.floor(index / 4) * 120, pitch: 48 + (index % 4) * 4 }),
);

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
const sd = (values: readonly number[]) => {
  const centre = mean(values);
  return Math.sqrt(mean(values.map((value) => (value - centre) ** 2)));
};
const correlation = (a: readonly number[], b: readonly number[]) => {
  const [ma, mb] = [mean(a), mean(b)];
  return mean(a.map((value, index) => (value - ma) * ((b[index] ?? 0) - mb))) / (sd(a) * sd(b));
};

describe('uniformOf', () => {
  it('is the same for the same note, and another for any other', () => {
    expect(uniformOf(key(), 'roll')).toBe(uniformOf(key(), 'roll'));
    const others = [
      uniformOf(key(), 'loosen'),
      uniformOf(key({ seed: 2 }), 'roll'),
      uniformOf(key({ part: '2/2' }), 'roll'),
      uniformOf(key({ pitch: 61 }), 'roll'),
      uniformOf(key({ position: 961 }), 'roll'),
      uniformOf(key({ occurrence: 1 }), 'roll'),
    ];
    expect(new Set([uniformOf(key(), 'roll'), ...others]).size).toBe(7);
  });

  it('does not confuse a part with what stands beside it', () => {
    expect(uniformOf(key({ part: '1', pitch: 160 }), 'x')).not.toBe(
      uniformOf(key({ part: '11', pitch: 60 }), 'x'),
    );
  });

  it('is evenly spread: Pearson’s χ² over 64 bins', () => {
    const bins = new Array<number>(64).fill(0);
    for (const one of keys) {
      const value = uniformOf(one, 'roll');
      expect(value).toBeGreaterThanOrEqual(0);
      expect(value).toBeLessThan(1);
      const bin = Math.floor(value * 64);
      bins[bin] = (bins[bin] ?? 0) + 1;
    }
    const expected = keys.length / 64;
    const chi = bins.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0);
    // 63 degrees of freedom: 99.9 % lie below 103.4 (standard tables), 0.1 % below 33.9
    expect(chi).toBeLessThan(103.4);
    expect(chi).toBeGreaterThan(33.9);
  });

  it('does not follow the neighbouring note, nor the other purpose', () => {
    const values = keys.map((one) => uniformOf(one, 'roll'));
    // 4 standard errors of a correlation of 40,000 pairs
    expect(Math.abs(correlation(values.slice(1), values.slice(0, -1)))).toBeLessThan(0.02);
    expect(Math.abs(correlation(values.slice(4), values.slice(0, -4)))).toBeLessThan(0.02);
    const loosened = keys.map((one) => uniformOf(one, 'loosen'));
    expect(Math.abs(correlation(values, loosened))).toBeLessThan(0.02);
  });
});

describe('gaussianOf', () => {
  const values = keys.map((one) => gaussianOf(one, 'roll'));

  it('has mean 0 and standard deviation 1', () => {
    expect(Math.abs(mean(values))).toBeLessThan(0.02);
    expect(sd(values)).toBeGreaterThan(0.985);
    expect(sd(values)).toBeLessThan(1.015);
  });

  it('has the normal distribution’s quantiles (standard tables)', () => {
    const below = (bound: number) => values.filter((value) => value < bound).length / values.length;
    for (const [bound, share] of [
      [-1.96, 0.025],
      [-1, 0.1587],
      [0, 0.5],
      [0.6745, 0.75],
      [1.6449, 0.95],
      [2.5758, 0.995],
    ] as const) {
      expect(Math.abs(below(bound) - share)).toBeLessThan(0.01);
    }
  });

  it('is bounded where that is asked, and else the same', () => {
    keys.slice(0, 5000).forEach((one, index) => {
      const value = values[index] ?? 0;
      expect(boundedGaussianOf(one, 'roll')).toBe(Math.max(-farthest, Math.min(farthest, value)));
    });
    expect(values.some((value) => Math.abs(value) > farthest)).toBe(true);
  });
});
