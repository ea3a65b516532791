import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { curveThrough, type Target } from '../../src/dynamics/curve.js';
import { draws } from '../support/draws.js';

const run = { seed: 5, numRuns: draws(300) };

/** Targets with places that never fall; some at one place. */
const targets = fc
  .array(fc.tuple(fc.integer({ min: 0, max: 60 }), fc.integer({ min: 0, max: 127 })), {
    minLength: 1,
    maxLength: 12,
  })
  .map((steps) => {
    let at = 0;
    return steps.map(([step, level]): Target => {
      at += step < 8 ? 0 : step;
      return { at, level };
    });
  });

const pairs = <T>(all: readonly T[]) => all.slice(1).map((to, index) => [all[index] ?? to, to] as const);

describe('curveThrough', () => {
  it('goes through its targets', () => {
    fc.assert(
      fc.property(targets, (all) => {
        const { valueAt } = curveThrough(all);
        for (const { at } of all) expect(valueAt(at)).toBe(all.findLast((one) => one.at === at)?.level);
      }),
      run,
    );
  });

  it('only rises or only falls between two targets, never beyond them', () => {
    fc.assert(
      fc.property(targets, (all) => {
        const { valueAt } = curveThrough(all);
        for (const [from, to] of pairs(all)) {
          const direction = Math.sign(to.level - from.level);
          const values: number[] = [];
          for (let at = from.at; at < to.at; at += 1 / 8) values.push(valueAt(at));
          if (direction === 0) expect(new Set([from.level, ...values])).toEqual(new Set([from.level]));
          const steps = pairs([from.level, ...values, to.level]).map(
            ([one, next]) => (next - one) * direction,
          );
          expect(Math.min(...steps)).toBeGreaterThanOrEqual(-1e-9);
        }
      }),
      run,
    );
  });

  it('is monotone between its knots, which rise strictly', () => {
    fc.assert(
      fc.property(targets, (all) => {
        const { knots, valueAt } = curveThrough(all);
        expect(new Set(knots)).toEqual(new Set(all.map(({ at }) => at)));
        for (const [from, to] of pairs(knots)) {
          expect(to).toBeGreaterThan(from);
          const values = Array.from({ length: to - from }, (_, step) => valueAt(from + step));
          const signs = new Set(
            pairs(values).flatMap(([a, b]) => (Math.abs(b - a) > 1e-9 ? Math.sign(b - a) : [])),
          );
          expect(signs.size).toBeLessThanOrEqual(1);
        }
      }),
      run,
    );
  });

  it('has no edge at a target, whether it rises there or turns', () => {
    const { valueAt } = curveThrough([
      { at: 0, level: 0 },
      { at: 10, level: 10 },
      { at: 30, level: 14 },
      { at: 40, level: 2 },
    ]);
    const slope = (from: number, to: number) => (valueAt(to) - valueAt(from)) / (to - from);
    for (const at of [10, 30]) expect(slope(at - 1e-4, at)).toBeCloseTo(slope(at, at + 1e-4), 3);
    expect(slope(30, 30 + 1e-4)).toBeCloseTo(0, 3);
  });

  it('has the values that the paper’s formulas give by hand', () => {
    // secants 1 and 9; slopes 1, 5, 9: in the first piece alpha 1, beta 5 lie beyond the circle of radius 3
    const { valueAt } = curveThrough([
      { at: 0, level: 0 },
      { at: 1, level: 1 },
      { at: 2, level: 10 },
    ]);
    const radius = Math.sqrt(26);
    const [m0, m1] = [3 / radius, 15 / radius];
    // cubic Hermite at the middle: mean of the ends and an eighth of the slopes' difference
    expect(valueAt(0.5)).toBeCloseTo(0.5 + (m0 - m1) / 8, 12);
    expect(valueAt(1.5)).toBeCloseTo(5.5 + (m1 - 9) / 8, 12);
  });

  it('has the value before a jump, and everywhere else the same', () => {
    fc.assert(
      fc.property(targets, (all) => {
        const { knots, valueAt, valueBefore } = curveThrough(all);
        for (const at of knots.slice(1)) {
          expect(valueBefore(at)).toBe(all.find((one) => one.at === at)?.level);
          expect(valueBefore(at - 0.25)).toBe(valueAt(at - 0.25));
        }
        expect(valueBefore(knots[0] ?? 0)).toBe(valueAt((knots[0] ?? 0) - 1));
      }),
      run,
    );
  });

  it('is a straight line where its targets are', () => {
    const { valueAt } = curveThrough([0, 3, 4, 11].map((at) => ({ at, level: 5 + 2 * at })));
    for (let at = 0; at <= 11; at += 0.25) expect(valueAt(at)).toBeCloseTo(5 + 2 * at, 12);
  });

  it('is held beyond its ends, and jumps where two targets share a place', () => {
    const jump = [
      { at: 10, level: 40 },
      { at: 20, level: 40 },
      { at: 20, level: 90 },
      { at: 30, level: 80 },
    ];
    const { knots, valueAt } = curveThrough(jump);
    expect([0, 10, 19, 19.999, 20, 30, 99].map(valueAt)).toEqual([40, 40, 40, 40, 90, 80, 80]);
    expect(knots).toEqual([10, 20, 30]);
    expect([0, 10, 20, 30, 99].map(curveThrough(jump).valueBefore)).toEqual([40, 40, 40, 80, 80]);
    const atStart = curveThrough([
      { at: 5, level: 1 },
      { at: 5, level: 2 },
      { at: 5, level: 3 },
    ]);
    expect([0, 5, 9].map(atStart.valueAt)).toEqual([3, 3, 3]);
  });

  it('takes rises that are next to nothing beside others', () => {
    const { valueAt } = curveThrough([
      { at: 0, level: 0 },
      { at: 9, level: 5e-324 },
      { at: 20, level: 100 },
    ]);
    expect([4, 9, 15].map((at) => Number.isFinite(valueAt(at)))).toEqual([true, true, true]);
  });

  it('refuses no targets, and places that fall', () => {
    expect(() => curveThrough([])).toThrow(RangeError);
    expect(() =>
      curveThrough([
        { at: 2, level: 0 },
        { at: 1, level: 0 },
      ]),
    ).toThrow(RangeError);
    expect(() =>
      curveThrough([
        { at: 0, level: 0 },
        { at: Number.NaN, level: 0 },
      ]),
    ).toThrow(RangeError);
  });
});
