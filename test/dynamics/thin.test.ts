import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Target } from '../../src/dynamics/curve.js';
import { thin } from '../../src/dynamics/thin.js';
import { draws } from '../support/draws.js';

const points = fc
  .array(fc.tuple(fc.integer({ min: 1, max: 50 }), fc.double({ min: 0, max: 7, noNaN: true })), {
    maxLength: 60,
  })
  .map((steps) => {
    let at = 0;
    return steps.map(([step, level]): Target => {
      at += step;
      return { at, level };
    });
  });

/** The level of the line through the kept points. */
function lineAt(kept: readonly Target[], at: number): number {
  const after = kept.findIndex((one) => one.at >= at);
  const to = kept[after];
  const from = kept[after - 1] ?? to;
  if (!to || !from) return Number.NaN;
  return from.at === to.at
    ? to.level
    : from.level + ((to.level - from.level) * (at - from.at)) / (to.at - from.at);
}

describe('thin', () => {
  it('has every dropped point within the tolerance of the kept line, and the ends kept', () => {
    fc.assert(
      fc.property(points, fc.double({ min: 0, max: 3, noNaN: true }), (all, tolerance) => {
        const kept = thin(all, tolerance);
        expect(kept[0]).toBe(all[0]);
        expect(kept.at(-1)).toBe(all.at(-1));
        for (const { at, level } of all) {
          expect(Math.abs(lineAt(kept, at) - level)).toBeLessThanOrEqual(tolerance + 1e-9);
        }
      }),
      { seed: 3, numRuns: draws(300) },
    );
  });

  it('keeps the one point that a bend needs', () => {
    const bend = Array.from({ length: 101 }, (_, at) => ({ at, level: Math.min(at, 40) }));
    expect(thin(bend, 0.1).map(({ at }) => at)).toEqual([0, 40, 100]);
    expect(thin(bend, 0.1, (index) => index === 70).map(({ at }) => at)).toEqual([0, 40, 70, 100]);
  });

  it('takes one and two points', () => {
    const two = [
      { at: 0, level: 1 },
      { at: 1, level: 2 },
    ];
    expect(thin([], 1)).toEqual([]);
    expect(thin(two.slice(1), 1)).toEqual(two.slice(1));
    expect(thin(two, 1)).toEqual(two);
  });

  it('does not run out of stack where every split takes off one point', () => {
    // ever smaller swings: the farthest point is always the first
    const swings = Array.from({ length: 200_000 }, (_, at) => ({
      at,
      level: (at % 2 === 0 ? 1 : -1) * (300_000 - at),
    }));
    expect(thin(swings, 0.5).length).toBe(swings.length);
  });
});
