import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type LineBar, tuneByBar, tuneWeights } from '../../../src/music/balance/tune.js';
import { draws } from '../../support/draws.js';

const held = (height: number): LineBar => ({ moves: 0, height });
const tune = (height: number): LineBar => ({ moves: 4, height });

describe('who has the tune', () => {
  it('is the most moving upper line, not what is held above it or runs below it', () => {
    expect(tuneByBar([[held(84), tune(72), { moves: 16, height: 43 }]])).toEqual([1]);
  });

  it('is the highest where nothing moves', () => {
    expect(tuneByBar([[held(60), held(72)]])).toEqual([1]);
  });

  it('is not handed over for a single quiet bar, but where another line takes it', () => {
    const [flute, horn] = [tune(76), tune(64)];
    const bars = [
      [flute, held(60)],
      [held(76), { moves: 1, height: 60 }],
      [flute, held(60)],
      [undefined, horn],
      [held(76), horn],
      [held(76), horn],
    ];
    expect(tuneByBar(bars)).toEqual([0, 0, 0, 1, 1, 1]);
  });

  it('is a line that sounds, wherever one does', () => {
    const line = fc.option(
      fc.record({
        moves: fc.integer({ min: 0, max: 20 }),
        height: fc.double({ min: 20, max: 100, noNaN: true }),
      }),
      { nil: undefined },
    );
    const bars = fc
      .integer({ min: 1, max: 5 })
      .chain((lines) => fc.array(fc.array(line, { minLength: lines, maxLength: lines }), { maxLength: 12 }));
    fc.assert(
      fc.property(bars, (all) => {
        tuneByBar(all).forEach((found, bar) => {
          const sounding = (all[bar] ?? []).flatMap((one, index) => (one ? [index] : []));
          if (sounding.length === 0) expect(found).toBeUndefined();
          else expect(sounding).toContain(found);
        });
      }),
      { seed: 8, numRuns: draws(200) },
    );
    expect(tuneWeights.change).toBeGreaterThan(0);
  });
});
