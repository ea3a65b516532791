import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { instruments } from '../../../src/music/instruments/ranges.js';
import { pitchesOfThird, sharesOfThirds, thirdOf } from '../../../src/music/register/thirds.js';
import { draws } from '../../support/draws.js';

const thirds = ['dark', 'middle', 'bright'] as const;
const ofThirds = (range: { low: number; high: number }) =>
  thirds.map((third) => pitchesOfThird(third, range));

describe('thirds of a range', () => {
  it('are as counted by hand', () => {
    // oboe B♭3–A6: 36 pitches, 12 to a third: B♭3–A4, B♭4–A5, B♭5–A6
    expect(ofThirds(instruments.oboe)).toEqual([
      { low: 58, high: 69 },
      { low: 70, high: 81 },
      { low: 82, high: 93 },
    ]);
    // horn B1–F5: 43 pitches, the one over is dark: 15, 14, 14
    expect(ofThirds(instruments.horn)).toEqual([
      { low: 35, high: 49 },
      { low: 50, high: 63 },
      { low: 64, high: 77 },
    ]);
    // viola C3–E6: 41 pitches, two over: 14, 14, 13
    expect(ofThirds(instruments.viola)).toEqual([
      { low: 48, high: 61 },
      { low: 62, high: 75 },
      { low: 76, high: 88 },
    ]);
  });

  it('share the range out: each pitch in one, none left over, sizes one apart at most', () => {
    const ranges = fc
      .tuple(fc.integer({ min: 0, max: 120 }), fc.integer({ min: 2, max: 127 }))
      .map(([low, span]) => ({ low, high: Math.min(127, low + span) }));
    fc.assert(
      fc.property(ranges, (range) => {
        const parts = ofThirds(range);
        const pitches = parts.flatMap(({ low, high }) =>
          Array.from({ length: high - low + 1 }, (_, index) => low + index),
        );
        expect(pitches).toEqual(
          Array.from({ length: range.high - range.low + 1 }, (_, index) => range.low + index),
        );
        parts.forEach(({ low, high }, index) => {
          expect([thirdOf(low, range), thirdOf(high, range)]).toEqual([thirds[index], thirds[index]]);
        });
        const sizes = parts.map(({ low, high }) => high - low + 1);
        expect(Math.max(...sizes) - Math.min(...sizes)).toBeLessThanOrEqual(1);
      }),
      { seed: 6, numRuns: draws(300) },
    );
  });

  it('take what lies outside to the nearest', () => {
    expect([thirdOf(20, instruments.oboe), thirdOf(120, instruments.oboe)]).toEqual(['dark', 'bright']);
  });

  it('have their shares of sounding time', () => {
    const notes = [
      { pitch: 60, length: 300 },
      { pitch: 69, length: 300 },
      { pitch: 70, length: 300 },
      { pitch: 90, length: 100 },
    ];
    expect(sharesOfThirds(notes, instruments.oboe)).toEqual({ dark: 0.6, middle: 0.3, bright: 0.1 });
    expect(sharesOfThirds([{ pitch: 60, length: 0 }], instruments.oboe)).toEqual({
      dark: 0,
      middle: 0,
      bright: 0,
    });
  });
});
