import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nearestGivenPlaces as nearestPlaces } from '../../../src/timing/grid/given.js';
import { draws } from '../../support/draws.js';

/** null where there is none. */
const nearestGivenPlaces = (beats: readonly number[], grids: Parameters<typeof nearestPlaces>[1]) =>
  Array.from(nearestPlaces(Float64Array.from(beats), grids), (place) => (Number.isNaN(place) ? null : place));

const sixteenth = { numerator: 1, denominator: 16 };
const triplet = { numerator: 1, denominator: 12 };

describe('nearestGivenPlaces', () => {
  it('takes the nearest place of any grid', () => {
    expect(nearestGivenPlaces([0.02, 0.27, 0.35, 0.9, 1.7], [sixteenth, triplet])).toEqual([
      0,
      0.25,
      1 / 3,
      1,
      5 / 3,
    ]);
    expect(nearestGivenPlaces([0.35, 1.4], [sixteenth])).toEqual([0.25, 1.5]);
    expect(nearestGivenPlaces([0.8, 2], [{ numerator: 3, denominator: 16 }])).toEqual([0.75, 2.25]);
  });

  it('leaves where they are those that would share a place with a nearer one', () => {
    const eighths = { numerator: 1, denominator: 8 };
    expect(nearestGivenPlaces([0.01, 0.24, 0.49, 0.76, 1.01], [eighths])).toEqual([0, null, 0.5, null, 1]);
    expect(nearestGivenPlaces([0.9, 0.95, 1.02, 1.1], [{ numerator: 1, denominator: 4 }])).toEqual([
      null,
      null,
      1,
      null,
    ]);
  });

  it('never gives a place twice, and never one of another order than the onsets', () => {
    const beats = fc
      .array(fc.double({ min: 0, max: 8, noNaN: true }), { maxLength: 40 })
      .map((values) => values.sort((a, b) => a - b));
    fc.assert(
      fc.property(beats, fc.subarray([sixteenth, triplet, { numerator: 1, denominator: 8 }]), (xs, grids) => {
        const places = nearestGivenPlaces(xs, grids).filter((place) => place !== null);
        if (grids.length === 0) expect(places).toEqual([]);
        for (let i = 1; i < places.length; i += 1) {
          expect(places[i]).toBeGreaterThan((places[i - 1] ?? 0) + 1e-6);
        }
      }),
      { seed: 12, numRuns: draws(1000) },
    );
  });
});
