import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PlaceAssigner } from '../../../src/timing/grid/assign.js';
import { draws } from '../../support/draws.js';

const assigner = new PlaceAssigner();

/** undefined where there is no room. */
function assignPlaces(
  positions: readonly number[],
  low: number,
  high: number,
): readonly number[] | undefined {
  assigner.pool(Float64Array.from(positions), 0, positions.length, 0, 1);
  if (!assigner.hasRoom(low, high)) return undefined;
  return positions.map((_, index) => assigner.at(index, low, high));
}

/** The least sum of squares over all rising choices, by trying each. */
function minByTrying(positions: readonly number[], low: number, high: number): number {
  const [first, ...rest] = positions;
  if (first === undefined) return 0;
  let least = Number.POSITIVE_INFINITY;
  for (let place = low; place <= high - rest.length; place += 1) {
    least = Math.min(least, (first - place) ** 2 + minByTrying(rest, place + 1, high));
  }
  return least;
}

describe('PlaceAssigner', () => {
  it('takes the nearest places where they differ', () => {
    expect(assignPlaces([0.1, 0.9, 2.2], 0, 4)).toEqual([0, 1, 2]);
  });

  it('parts two that are nearest to one place', () => {
    expect(assignPlaces([1.1, 1.3], 0, 4)).toEqual([1, 2]);
    expect(assignPlaces([0.7, 0.9], 0, 4)).toEqual([0, 1]);
  });

  it('has no answer where there are more onsets than places', () => {
    expect(assignPlaces([0, 1, 2], 0, 1)).toBeUndefined();
    expect(assignPlaces([], 0, 0)).toEqual([]);
  });

  it('counts places from a beat on, in parts of a beat', () => {
    assigner.pool(Float64Array.of(0.5, 7.02, 7.3, 7.74, 8.1), 1, 4, 7, 4);
    expect([0, 1, 2].map((index) => assigner.at(index, 0, 3))).toEqual([0, 1, 3]);
    expect(assigner.last(1, 4)).toBe(3);
  });

  it('is the least sum of squares of all rising choices', () => {
    const positions = fc
      .array(fc.double({ min: 0, max: 6, noNaN: true }), { maxLength: 5 })
      .map((values) => values.sort((a, b) => a - b));
    fc.assert(
      fc.property(
        positions,
        fc.integer({ min: 0, max: 1 }),
        fc.integer({ min: 4, max: 6 }),
        (xs, low, high) => {
          const places = assignPlaces(xs, low, high);
          if (places === undefined) {
            expect(xs.length).toBeGreaterThan(high - low + 1);
            return;
          }
          places.forEach((place, index) => {
            expect(place).toBeGreaterThanOrEqual(index === 0 ? low : (places[index - 1] ?? 0) + 1);
            expect(place).toBeLessThanOrEqual(high);
          });
          const cost = xs.reduce((sum, x, index) => sum + (x - (places[index] ?? 0)) ** 2, 0);
          expect(cost).toBeCloseTo(minByTrying(xs, low, high), 9);
        },
      ),
      { seed: 11, numRuns: draws(2000) },
    );
  });
});
