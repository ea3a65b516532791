import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { placeOf, without } from '../../../../src/sound/measure/note/stereo.js';
import type { PowerSum } from '../../../../src/sound/signal/index.js';
import { draws } from '../../../support/draws.js';

/** Unconnected sources of one power at places of the pan law of RP-036. */
function sources(places: readonly number[]): PowerSum {
  const sum = { left: 0, right: 0, cross: 0 };
  for (const seat of places) {
    const angle = (Math.PI * (seat + 1)) / 4;
    const [l, r] = [Math.cos(angle), Math.sin(angle)];
    sum.left += l * l;
    sum.right += r * r;
    sum.cross += l * r;
  }
  return sum;
}

const row = (seat: number, width: number) =>
  sources(Array.from({ length: 201 }, (_, index) => seat + width * (index / 100 - 1)));

describe('seat and width', () => {
  it('of one source are its place in the pan law, and a point', () => {
    fc.assert(
      fc.property(fc.double({ min: -1, max: 1, noNaN: true }), (seat) => {
        const found = placeOf(sources([seat]));
        expect(found?.seat).toBeCloseTo(seat, 6);
        expect(found?.width).toBeCloseTo(0, 3);
      }),
      { seed: 1, numRuns: draws(100) },
    );
  });

  it('of a row of sources are its middle and how much of the stage it fills', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 1, noNaN: true }),
        fc.double({ min: -1, max: 1, noNaN: true }),
        (width, place) => {
          const seat = place * (1 - width);
          const found = placeOf(row(seat, width));
          expect(found?.seat).toBeCloseTo(seat, 1);
          expect(Math.abs((found?.seat ?? 9) - seat)).toBeLessThan(0.02);
          expect(Math.abs((found?.width ?? 9) - width)).toBeLessThan(0.03);
        },
      ),
      { seed: 2, numRuns: draws(100) },
    );
  });

  it('of channels that have nothing in common are the whole stage, seated by their levels', () => {
    expect(placeOf({ left: 1, right: 1, cross: 0 })).toEqual({ seat: expect.closeTo(0, 9), width: 1 });
    const right = placeOf({ left: 0.8, right: 1.2, cross: 0 });
    expect(right?.seat).toBeGreaterThan(0.05);
    expect(right?.seat).toBeLessThan(0.5);
    // Turned over: as wide, and nowhere.
    expect(placeOf({ left: 1, right: 1, cross: -1 })?.width).toBe(1);
  });

  it('of silence are not told; noise is taken off', () => {
    expect(placeOf({ left: 0, right: 0, cross: 0 })).toBeUndefined();
    const noise = { left: 0.5, right: 0.5, cross: 0 };
    const { left, right, cross } = sources([0.4]);
    const noisy = { left: left + 0.5, right: right + 0.5, cross };
    expect(placeOf(without(noisy, noise))?.seat).toBeCloseTo(0.4, 6);
  });
});
