import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { farthest } from '../../src/timing/hash.js';
import { type LooseOnset, loosen } from '../../src/timing/loosen.js';
import { draws } from '../support/draws.js';

const onset = (ms: number, change: Partial<LooseOnset> = {}): LooseOnset => ({
  key: { seed: 1, part: '1/1', pitch: 60, position: Math.round(ms), occurrence: 0 },
  ms,
  barEndMs: Number.POSITIVE_INFINITY,
  exact: true,
  ...change,
});

const every = (interval: number, count: number) =>
  Array.from({ length: count }, (_, index) => onset(index * interval));

const sd = (values: readonly number[]) =>
  Math.sqrt(values.reduce((sum, x) => sum + x * x, 0) / values.length);

describe('loosen', () => {
  // Friberg & Sundberg 1995 (from memory): 2.5 % of the interval
  it('has 2.5 % of the interval as its standard deviation, and the option as its bound', () => {
    for (const [interval, expected] of [
      [100, 2.5],
      [200, 5],
      [320, 8],
      [500, 8],
      [2000, 8],
    ] as const) {
      const measured = sd(loosen(every(interval, 5000), 8));
      expect(measured / expected, `${interval} ms`).toBeGreaterThan(0.95);
      expect(measured / expected, `${interval} ms`).toBeLessThan(1.03);
    }
  });

  it('moves only what is too exact', () => {
    const offsets = loosen([onset(0), onset(500, { exact: false }), onset(1000)], 8);
    expect(offsets[1]).toBe(0);
    expect(offsets[0]).not.toBe(0);
    expect(offsets[2]).not.toBe(0);
  });

  it('never goes beyond its bound', () => {
    for (const offset of loosen(every(1000, 5000), 8))
      expect(Math.abs(offset)).toBeLessThanOrEqual(farthest * 8);
  });

  it('never changes the order', () => {
    const gaps = fc.array(fc.oneof(fc.integer({ min: 1, max: 40 }), fc.integer({ min: 1, max: 2000 })), {
      minLength: 2,
      maxLength: 60,
    });
    fc.assert(
      fc.property(gaps, fc.integer({ min: 0, max: 200 }), (list, bound) => {
        let ms = 0;
        const onsets = list.map((gap) => {
          ms += gap;
          return onset(ms);
        });
        const moved = loosen(onsets, bound).map((offset, index) => offset + (onsets[index]?.ms ?? 0));
        for (let i = 1; i < moved.length; i += 1) expect(moved[i]).toBeGreaterThan(moved[i - 1] ?? 0);
      }),
      { seed: 31, numRuns: draws(500) },
    );
  });

  it('changes nothing in the bars beside one that is changed', () => {
    const bar = (number: number, ...at: number[]) =>
      at.map((ms) => onset((number - 1) * 2000 + ms, { barEndMs: number * 2000 }));
    const [before, after] = [bar(39, 0, 250, 1000, 1750), bar(41, 0, 1000, 1500, 1900)];
    const first = bar(40, 0, 500, 1000, 1500);
    const second = bar(40, 120, 700, 1900);
    const a = loosen([...before, ...first, ...after], 8);
    const b = loosen([...before, ...second, ...after], 8);
    expect(b.slice(0, 4)).toEqual(a.slice(0, 4));
    expect(b.slice(-4)).toEqual(a.slice(-4));
    expect(b.slice(4, 7)).not.toEqual(a.slice(4, 7));
    const empty = loosen([...before, ...after], 8);
    expect(empty).toEqual([...a.slice(0, 4), ...a.slice(-4)]);
  });
});
