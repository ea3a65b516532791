import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CoveredBars } from '../../src/prove/bars.js';

describe('CoveredBars', () => {
  it('counts what counting bar by bar gives', () => {
    const stretch = fc.tuple(fc.integer({ min: 1, max: 40 }), fc.nat(15));
    fc.assert(
      fc.property(fc.array(stretch, { maxLength: 20 }), (drawn) => {
        const stretches = drawn
          .map(([from, more]) => [from, from + more] as const)
          .sort(([, a], [, b]) => a - b);
        const covered = new CoveredBars();
        for (const [from, to] of stretches) covered.add(from, to);
        const bars = Array.from({ length: 60 }, (_, bar) => bar);
        const all = bars.filter((bar) => stretches.some(([from, to]) => from <= bar && bar <= to));
        expect(covered.count).toBe(all.length);
      }),
    );
  });
});
