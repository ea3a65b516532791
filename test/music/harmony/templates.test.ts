import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { templateScore, templates } from '../../../src/music/harmony/templates.js';
import { bassAt } from '../../../src/music/harmony/weight-sums.js';
import { draws } from '../../support/draws.js';

/** Twice what each template matches on each root that sounds, less all that sounds, missing tones and its cost. */
function plainly(weights: readonly number[], bass: readonly number[]): number {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  let best = 0;
  weights.forEach((weight, root) => {
    if (weight <= 0) return;
    for (const [cost, tones] of templates) {
      let sum = -cost;
      for (const tone of tones) sum += gain(weights[(root + tone) % 12]);
      best = Math.max(best, Math.max(0, sum) + (bass[root] ?? 0));
    }
  });
  return best - total;
}

function gain(weight = 0): number {
  return weight > 0 ? 2 * weight : -0.4;
}

const twelve = (value: fc.Arbitrary<number>) => fc.array(value, { minLength: 12, maxLength: 12 });
// Many are silent, and many alike, as in music.
const weight = fc.oneof(
  fc.constant(0),
  fc.constantFrom(0.25, 0.5, 1, 2),
  fc.double({ min: 0.001, max: 9, noNaN: true }),
);

describe('the score of templates', () => {
  it('is that of the best of all templates on all roots, to the last bit', () => {
    fc.assert(
      fc.property(twelve(weight), twelve(fc.constantFrom(0, 0, 0.25, 0.5)), (weights, bass) => {
        expect(templateScore(sumsOf(weights, bass), 0, 25, Number.NEGATIVE_INFINITY)).toBe(
          plainly(weights, bass),
        );
      }),
      { numRuns: draws(500) },
    );
  });

  it('is exact wherever it is above what is asked for', () => {
    fc.assert(
      fc.property(
        twelve(weight),
        twelve(fc.constantFrom(0, 0, 0.25, 0.5)),
        fc.double({ min: -3, max: 3, noNaN: true }),
        (weights, bass, above) => {
          const score = plainly(weights, bass);
          const told = templateScore(sumsOf(weights, bass), 0, 25, score + above);
          if (above < 0) expect(told).toBe(score);
          else expect(told).toBeLessThanOrEqual(score);
        },
      ),
      { numRuns: draws(500) },
    );
  });
});

/** Two rows of running sums between which so much is added. */
function sumsOf(weights: readonly number[], bass: readonly number[]): Float64Array {
  const sums = new Float64Array(50);
  sums.set(weights, 25);
  sums.set(bass, 25 + bassAt);
  return sums;
}
