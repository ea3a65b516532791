import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { panGains, seatOfDifference } from '../../../src/dynamics/pan/pan.js';
import { place } from '../../../src/dynamics/pan/place.js';
import { draws } from '../../support/draws.js';

const run = { seed: 9, numRuns: draws(400) };
const seat = fc.double({ min: -0.9, max: 0.9, noNaN: true });

describe('place', () => {
  it('leaves a recording that sits where it should', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (at, width) => {
          expect(place({ seat: at, width }, at).value).toBe(64);
          expect(place({ seat: at, width }, at, 1).value).toBe(64);
        },
      ),
      run,
    );
  });

  it('brings two recordings from different seats to one place, measured by what both sides get', () => {
    fc.assert(
      fc.property(seat, seat, fc.double({ min: -0.8, max: 0.8, noNaN: true }), (first, second, wanted) => {
        const heard = [first, second].map((from) => {
          const { value, heard: told } = place({ seat: from, width: 0 }, wanted, 1);
          // the recording's own sides by its seat, then the pan law on each
          const angle = (Math.PI * (from + 1)) / 4;
          const { left, right } = panGains(value);
          const [l, r] = [Math.cos(angle) * 10 ** (left / 20), Math.sin(angle) * 10 ** (right / 20)];
          const measured = seatOfDifference(20 * Math.log10(r / l));
          expect(told).toBeCloseTo(measured, 9);
          return measured;
        });
        // one step of the controller is 1/63 of a seat in the middle; far from it, it is more
        for (const place of heard) expect(Math.abs(place - wanted)).toBeLessThan(0.06);
      }),
      run,
    );
  });

  it('is the pan value of the place for a recording in the middle', () => {
    expect([-0.9, -0.5, 0, 0.5, 0.9].map((wanted) => place({ seat: 0, width: 0 }, wanted, 1).value)).toEqual([
      7, 33, 64, 96, 121,
    ]);
  });

  it('goes half the way where nothing else is asked for', () => {
    const { heard, asked } = place({ seat: -0.4, width: 0.2 }, 0.4);
    expect(heard).toBeCloseTo(0, 1);
    expect(asked).toBeCloseTo(0.8, 12);
    expect(place({ seat: -0.4, width: 0.2 }, 0.4, 0).value).toBe(64);
  });

  it('moves towards the place that is wanted, and never past it by more than a step', () => {
    fc.assert(
      fc.property(seat, seat, fc.double({ min: 0, max: 1, noNaN: true }), (from, wanted, width) => {
        const { value } = place({ seat: from, width }, wanted);
        expect((value - 64) * (wanted - from)).toBeGreaterThanOrEqual(0);
      }),
      run,
    );
  });

  it('keeps a wide recording inside the stage', () => {
    expect(place({ seat: 0, width: 1 }, 1, 1).heard).toBeCloseTo(0.5, 1);
    expect(place({ seat: 0, width: 0.4 }, 1, 1).heard).toBeCloseTo(0.8, 1);
  });

  it('flags a way of more than half the stage', () => {
    const far = (from: number, to: number) => place({ seat: from, width: 0.3 }, to).isFar;
    expect([far(-0.5, 0.5), far(-0.6, 0.5), far(0.6, -0.5), far(0, 1), far(1, -1)]).toEqual([
      false,
      true,
      true,
      false,
      true,
    ]);
  });

  it('has whole values from 0 to 127 from anywhere to anywhere', () => {
    for (const from of [-1, -0.95, 0, 1]) {
      for (const to of [-1, 0, 0.3, 1]) {
        const { value, heard } = place({ seat: from, width: 0 }, to, 1);
        expect(Number.isInteger(value) && value >= 0 && value <= 127).toBe(true);
        expect(Math.abs(heard)).toBeLessThanOrEqual(1);
      }
    }
  });
});
