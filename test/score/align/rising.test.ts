import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rising } from '../../../src/score/align/rising.js';

describe('places carried from score to take', () => {
  it('lie on the points, between them in proportion, and beyond them at their pace', () => {
    const carry = rising([
      { from: 0, to: 100 },
      { from: 4, to: 300 },
      { from: 8, to: 700 },
    ]);
    expect([-2, 0, 1, 4, 6, 8, 10].map(carry)).toEqual([0, 100, 150, 300, 500, 700, 900]);
  });

  it('take the earliest note of a chord, and one point for everything where there is but one', () => {
    const carry = rising([
      { from: 1, to: 30 },
      { from: 1, to: 20 },
    ]);
    expect([0, 1, 9].map(carry)).toEqual([20, 20, 20]);
  });

  it('never lead back', () => {
    const point = fc.record({ from: fc.nat(50), to: fc.nat(1000) });
    fc.assert(
      fc.property(fc.array(point, { minLength: 1, maxLength: 20 }), (points) => {
        const carry = rising(points);
        let last = Number.NEGATIVE_INFINITY;
        for (let from = -5; from < 60; from += 0.5) {
          expect(carry(from)).toBeGreaterThanOrEqual(last - 1e-9);
          last = carry(from);
        }
      }),
    );
  });
});
