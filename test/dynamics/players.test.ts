import { expect, it } from 'vitest';
import { playersOffset, sectionGain, together } from '../../src/dynamics/players.js';

it('adds powers: two players 3 dB, ten 10 dB', () => {
  expect(sectionGain(1)).toBe(0);
  expect(sectionGain(2)).toBeCloseTo(3.0103, 4);
  expect(sectionGain(10)).toBeCloseTo(10, 12);
});

it('is what so many equal sources give together', () => {
  for (const players of [1, 2, 3, 6, 16]) {
    expect(together(Array.from({ length: players }, () => -7))).toBeCloseTo(-7 + sectionGain(players), 10);
  }
  expect(together([])).toBe(Number.NEGATIVE_INFINITY);
  expect(together([Number.NEGATIVE_INFINITY, -3])).toBeCloseTo(-3, 12);
});

it('halves a section that is divided', () => {
  expect(playersOffset(8, 16)).toBeCloseTo(-3.0103, 4);
  expect(playersOffset(6, 6)).toBe(0);
});

it('refuses a section without players', () => {
  for (const players of [0, -1, Number.NaN]) expect(() => sectionGain(players)).toThrow(RangeError);
});
