import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bestKeyPath, costs } from '../../../src/music/harmony/key-path.js';
import { keys } from '../../../src/music/harmony/keys.js';
import { draws } from '../../support/draws.js';

const count = keys.length;

function sumOf(fits: Float64Array, path: ArrayLike<number>): number {
  let sum = 0;
  for (let step = 0; step < path.length; step++) {
    const here = path[step] ?? 0;
    const before = step === 0 ? here : (path[step - 1] ?? 0);
    sum += (fits[step * count + here] ?? 0) - (costs[before * count + here] ?? 0);
  }
  return sum;
}

describe('the path through keys', () => {
  it('has the highest sum of all paths', () => {
    const fit = fc.double({ min: -1, max: 2, noNaN: true });
    fc.assert(
      fc.property(fc.array(fit, { minLength: 3 * count, maxLength: 3 * count }), (values) => {
        const fits = Float64Array.from(values);
        const path = bestKeyPath(fits);
        let most = Number.NEGATIVE_INFINITY;
        for (let number = 0; number < count ** 3; number++)
          most = Math.max(
            most,
            sumOf(fits, [
              Math.floor(number / count ** 2),
              Math.floor(number / count) % count,
              number % count,
            ]),
          );
        expect(sumOf(fits, path)).toBeCloseTo(most, 9);
      }),
      { numRuns: draws(50) },
    );
  });
});
