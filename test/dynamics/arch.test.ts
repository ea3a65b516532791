import { expect, it } from 'vitest';
import { archAt, turnAt } from '../../src/dynamics/arch.js';

it('is a parabola on either side of its turn', () => {
  for (const turn of [0.4, 0.5, 0.75]) {
    expect([0, turn, 1].map((place) => archAt(place, turn))).toEqual([0, 1, 0]);
    // halfway along a parabola from its top a quarter is lost
    expect(archAt(turn / 2, turn)).toBeCloseTo(0.75, 12);
    expect(archAt((1 + turn) / 2, turn)).toBeCloseTo(0.75, 12);
  }
  expect([archAt(-1, 0.5), archAt(2, 0.5)]).toEqual([0, 0]);
});

it('turns at the highest note, but not near the ends', () => {
  expect([0, 0.5, 1].map(turnAt)).toEqual([0.4, 0.5, 0.75]);
});
