import { describe, expect, it } from 'vitest';
import {
  differenceOfSeat,
  panGains,
  panOfSeat,
  seatOfDifference,
  seatOfPan,
} from '../../../src/dynamics/pan/pan.js';

const silent = Number.NEGATIVE_INFINITY;

describe('panGains', () => {
  it('has the figures of RP-036 (from memory)', () => {
    for (const hardLeft of [0, 1]) expect(panGains(hardLeft)).toEqual({ left: 0, right: silent });
    expect(panGains(64).left).toBeCloseTo(-3.01, 2);
    expect(panGains(64).right).toBeCloseTo(-3.01, 2);
    expect(panGains(127)).toEqual({ left: silent, right: 0 });
  });

  it('has figures recomputed from its formula for 32 and 96', () => {
    // x = 31/126: cos 22.1429° = 0.92624, sin = 0.37692; x = 95/126: cos 67.8571° = 0.37692
    expect(panGains(32).left).toBeCloseTo(20 * Math.log10(0.92624), 3);
    expect(panGains(32).right).toBeCloseTo(20 * Math.log10(0.37692), 3);
    expect(panGains(96).left).toBeCloseTo(20 * Math.log10(0.37692), 3);
    expect(panGains(96).right).toBeCloseTo(20 * Math.log10(0.92624), 3);
  });

  it('has the same power everywhere', () => {
    for (let pan = 0; pan <= 127; pan += 1) {
      const { left, right } = panGains(pan);
      expect(10 ** (left / 10) + 10 ** (right / 10)).toBeCloseTo(1, 12);
    }
  });
});

describe('seats', () => {
  it('are −1, 0 and 1 at hard left, the middle and hard right, and come back', () => {
    expect([0, 1, 64, 127].map(seatOfPan)).toEqual([-1, -1, 0, 1]);
    for (let pan = 1; pan <= 127; pan += 1) expect(panOfSeat(seatOfPan(pan))).toBeCloseTo(pan, 10);
    expect([-9, 9].map(panOfSeat)).toEqual([1, 127]);
  });

  it('are the difference between the sides that the law makes, and back', () => {
    for (let pan = 2; pan <= 126; pan += 1) {
      const { left, right } = panGains(pan);
      expect(differenceOfSeat(seatOfPan(pan))).toBeCloseTo(right - left, 9);
      expect(seatOfDifference(right - left)).toBeCloseTo(seatOfPan(pan), 10);
    }
    expect([-1, 1].map(differenceOfSeat)).toEqual([silent, Number.POSITIVE_INFINITY]);
    expect([silent, Number.POSITIVE_INFINITY].map(seatOfDifference)).toEqual([-1, 1]);
  });
});
