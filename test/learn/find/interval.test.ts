import fc from 'fast-check';
import { expect, it } from 'vitest';
import { bestIntervals, sumsByBin } from '../../../src/learn/find/interval.js';

it('finds the interval that is worth most, as trying all does', () => {
  const bins = fc.array(fc.tuple(fc.integer({ min: 0, max: 7 }), fc.integer({ min: -1, max: 1 })), {
    minLength: 1,
  });
  fc.assert(
    fc.property(bins, (rows) => {
      // Where nothing gains, nothing is looked for.
      fc.pre(rows.some(([, gain]) => gain > 0));
      const bits = Float64Array.from({ length: 9 }, () => 2);
      const cuts = { count: 7, from: [], below: [], fromBits: bits.with(0, 0), belowBits: bits };
      const field = {
        rows: Int32Array.from(rows, (_, row) => row),
        gains: Float64Array.from(rows, ([, gain]) => gain),
        weights: new Float64Array(rows.length).fill(1),
      };
      const sums = sumsByBin(
        field,
        Uint8Array.from(rows, ([bin]) => bin),
        7,
      );
      const found = bestIntervals(sums, cuts, { errorWorth: 3, key: 1 });
      const worth = Math.max(...found.map((one) => one.worth));
      let best = -Infinity;
      for (let from = 0; from <= 7; from++)
        for (let below = from + 1; below <= 8; below++) {
          if (from === 0 && below === 8) continue;
          const gain = rows
            .filter(([bin]) => bin >= from && bin < below)
            .reduce((sum, [, one]) => sum + one, 0);
          best = Math.max(best, 3 * gain - 1 - (from > 0 ? 2 : 0) - (below < 8 ? 2 : 0));
        }
      expect(worth).toBeCloseTo(best, 9);
    }),
  );
});
