import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Curve, curveThrough, type Target } from '../../src/dynamics/curve.js';
import { type ControllerPoint, controllerPoints } from '../../src/dynamics/hold.js';
import { levelScale } from '../../src/dynamics/levels.js';
import { draws } from '../support/draws.js';

const run = { seed: 11, numRuns: draws(400) };

/** Curves of up to some 400 ticks, with flats, jumps, and rises of many steps in a tick. */
const curves = fc
  .array(fc.tuple(fc.integer({ min: 0, max: 60 }), fc.double({ min: 0, max: 127, noNaN: true })), {
    minLength: 1,
    maxLength: 10,
  })
  .map((steps) => {
    let at = 3;
    return steps.map(([step, level]): Target => {
      at += step < 6 ? 0 : step;
      return { at, level: step % 3 === 0 ? Math.round(level) : level };
    });
  })
  .map(curveThrough);

const lastTick = (curve: Curve) => curve.knots.at(-1) ?? 0;
const ticksOf = (curve: Curve) => {
  const first = curve.knots[0] ?? 0;
  return Array.from({ length: lastTick(curve) + 20 - first }, (_, index) => first + index);
};
const heard = (points: readonly ControllerPoint[], tick: number) =>
  points.findLast((point) => point.tick <= tick)?.value;

/** The smallest number of held whole values, each within 1 step: over every split of every tick. */
function fewest(values: readonly number[]): number {
  const best = [0];
  for (let end = 1; end <= values.length; end += 1) {
    let least = Number.POSITIVE_INFINITY;
    for (let start = end - 1; start >= 0; start -= 1) {
      const part = values.slice(start, end);
      const serves = Array.from({ length: 128 }, (_, value) => value).some((value) =>
        part.every((one) => Math.abs(one - value) <= 1),
      );
      if (!serves) break;
      least = Math.min(least, (best[start] ?? 0) + 1);
    }
    best.push(least);
  }
  return best.at(-1) ?? 0;
}

describe('controllerPoints', () => {
  it('is never heard more than 1 step from the curve, at any tick', () => {
    fc.assert(
      fc.property(curves, (curve) => {
        const points = controllerPoints(curve);
        for (const tick of ticksOf(curve)) {
          expect(Math.abs((heard(points, tick) ?? Number.NaN) - curve.valueAt(tick))).toBeLessThanOrEqual(1);
        }
      }),
      run,
    );
  });

  it('stays within 1 step through a library’s table too', () => {
    const scale = levelScale(
      new Map([
        ['pp', 3],
        ['p', 10],
        ['mf', 90],
        ['ff', 126],
      ]),
    );
    fc.assert(
      fc.property(curves, (levels) => {
        const curve: Curve = { ...levels, valueAt: (at) => scale(levels.valueAt(at) / 18) };
        const points = controllerPoints(curve);
        for (const tick of ticksOf(curve)) {
          expect(Math.abs((heard(points, tick) ?? Number.NaN) - curve.valueAt(tick))).toBeLessThanOrEqual(1);
        }
      }),
      run,
    );
  });

  it('has whole values from 0 to 127 on whole ticks in order, and no value after itself', () => {
    fc.assert(
      fc.property(curves, (curve) => {
        const points = controllerPoints(curve);
        expect(points[0]?.tick).toBe(curve.knots[0]);
        points.forEach(({ tick, value }, index) => {
          expect(Number.isInteger(tick) && Number.isInteger(value) && value >= 0 && value <= 127).toBe(true);
          const before = points[index - 1];
          if (!before) return;
          expect(tick).toBeGreaterThan(before.tick);
          expect(value).not.toBe(before.value);
        });
      }),
      run,
    );
  });

  it('rises only where the curve rises, and falls only where it falls', () => {
    fc.assert(
      fc.property(curves, (curve) => {
        const points = controllerPoints(curve);
        points.forEach(({ tick, value }, index) => {
          const before = points[index - 1];
          if (!before) return;
          const moved = curve.valueAt(tick) - curve.valueAt(tick - 1);
          expect(Math.sign(value - before.value)).toBe(Math.sign(moved));
        });
      }),
      run,
    );
  });

  it('needs as few events as any held values can have', () => {
    fc.assert(
      fc.property(curves, (curve) => {
        const values = ticksOf(curve).map((tick) => curve.valueAt(tick));
        expect(controllerPoints(curve).length).toBe(fewest(values));
      }),
      { ...run, numRuns: draws(25) },
    );
  });

  it('has one event for a curve that stays, and about one for two steps of one that rises', () => {
    expect(controllerPoints(curveThrough([{ at: 7, level: 64.4 }]))).toEqual([{ tick: 7, value: 64 }]);
    const ramp = controllerPoints(
      curveThrough([
        { at: 0, level: 20 },
        { at: 9600, level: 120 },
      ]),
    );
    expect(ramp.length).toBe(50);
  });

  it('jumps on the tick', () => {
    expect(
      controllerPoints(
        curveThrough([
          { at: 0, level: 30 },
          { at: 480, level: 30 },
          { at: 480, level: 100 },
        ]),
      ),
    ).toEqual([
      { tick: 0, value: 30 },
      { tick: 480, value: 100 },
    ]);
  });

  it('refuses a curve that no controller can follow', () => {
    for (const level of [-0.5, 128, Number.NaN]) {
      expect(() => controllerPoints(curveThrough([{ at: 0, level }]))).toThrow(RangeError);
    }
  });

  it('takes time in proportion to its events, not to ticks', () => {
    let looks = 0;
    const curve = curveThrough(
      Array.from({ length: 2000 }, (_, index) => ({ at: index * 100_000, level: index % 2 === 0 ? 40 : 80 })),
    );
    const points = controllerPoints({
      ...curve,
      valueAt: (at) => {
        looks += 1;
        return curve.valueAt(at);
      },
    });
    expect(points.length).toBeGreaterThan(30_000);
    expect(looks / points.length).toBeLessThan(25);
  });
});
