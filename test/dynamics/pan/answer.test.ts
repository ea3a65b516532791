import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fullLaw, panLaw } from '../../../src/dynamics/pan/answer.js';
import { place } from '../../../src/dynamics/pan/place.js';

/**
 * Two recordings of one power, panned hard left and right, that a controller moves: each by the pan law, neither beyond its
 * end (SoundFont 2.04, 8.1.3 and 8.4.2: pan is added to that of the zone, and bounded).
 */
function twoSides(value: number): number {
  const shift = (value - 64) / 63;
  const powers = [-1, 1].map((zone) => {
    const angle = (Math.PI * (Math.max(-1, Math.min(1, zone + shift)) + 1)) / 4;
    return [Math.cos(angle) ** 2, Math.sin(angle) ** 2] as const;
  });
  const [left, right] = [0, 1].map((side) => powers.reduce((sum, of) => sum + (of[side] ?? 0), 0));
  return 10 * Math.log10((right ?? 0) / (left ?? 1));
}

const stereo = panLaw(new Map([1, 32, 96, 127].map((value) => [value, twoSides(value)])));

describe('what a controller does to a recording', () => {
  it('is RP-036 where the whole stage was measured', () => {
    const law = panLaw(
      new Map([
        [1, -120],
        [127, 120],
      ]),
    );
    for (const value of [5, 20, 40, 64, 90, 110, 123])
      expect(law.differenceOf(value)).toBeCloseTo(fullLaw.differenceOf(value), 1);
    expect(panLaw(undefined)).toBe(fullLaw);
  });

  it('is that of two sides within a quarter of a dB all over, where five values were measured', () => {
    for (let value = 1; value <= 127; value += 1)
      expect(Math.abs(stereo.differenceOf(value) - twoSides(value))).toBeLessThan(0.25);
  });

  it('is undone by the value that does it', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 127 }), (value) => {
        expect(Math.abs(stereo.valueOf(stereo.differenceOf(value)) - value)).toBeLessThan(0.01);
      }),
    );
    expect(stereo.valueOf(0)).toBe(64);
  });

  it('ends at the ends: what it cannot reach is told', () => {
    expect([stereo.valueOf(-40), stereo.valueOf(40)].map(Math.round)).toEqual([1, 127]);
    const { value, heard, unreached } = place({ seat: 0, width: 0 }, 0.9, 1, stereo);
    expect(value).toBe(127);
    // 10 · log10(1.5 / 0.5) dB
    expect(heard).toBeCloseTo((4 / Math.PI) * Math.atan(10 ** (4.771 / 20)) - 1, 3);
    expect(unreached).toBeCloseTo(0.9, 6);
    expect(place({ seat: 0, width: 0 }, 0.2, 1, stereo).unreached).toBeUndefined();
  });

  it('that moves nothing leaves the middle', () => {
    const still = panLaw(
      new Map([
        [1, 0],
        [127, 0],
      ]),
    );
    expect(still.valueOf(0)).toBe(64);
    expect(still.differenceOf(127)).toBeCloseTo(0, 9);
  });
});

describe('a recording whose answer was measured', () => {
  it('is heard where it is to be, within half a step and what was not measured', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -0.25, max: 0.25, noNaN: true }),
        fc.double({ min: -0.25, max: 0.25, noNaN: true }),
        (from, wanted) => {
          const { value, heard } = place({ seat: from, width: 0 }, wanted, 1, stereo);
          expect(Math.abs(heard - wanted)).toBeLessThan(0.15);
          if (value > 1 && value < 127) expect(Math.abs(heard - wanted)).toBeLessThan(0.01);
        },
      ),
    );
  });
});
