import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { movedApart as apart, shareOfRoom } from '../../src/timing/apart.js';
import { draws } from '../support/draws.js';

interface Movable {
  readonly first: number;
  readonly last: number;
  readonly wanted: number;
}

const movedApart = (onsets: readonly Movable[]) => [
  ...apart({
    first: Float64Array.from(onsets, ({ first }) => first),
    last: Float64Array.from(onsets, ({ last }) => last),
    wanted: Float64Array.from(onsets, ({ wanted }) => wanted),
  }),
];

const single = (first: number, wanted: number): Movable => ({ first, last: first, wanted });

describe('movedApart', () => {
  it('goes all the way where there is room', () => {
    expect(movedApart([single(100, 110), single(500, 480)])).toEqual([110, 480]);
  });

  it('stays a tick apart from one that stays', () => {
    expect(movedApart([single(100, 130), single(110, 110)])).toEqual([109, 110]);
    expect(movedApart([single(100, 100), single(110, 90)])).toEqual([100, 101]);
  });

  it('shares the room where both move', () => {
    expect(movedApart([single(100, 120), single(120, 100)])).toEqual([109, 110]);
  });

  it('keeps the spread of a chord before the next', () => {
    expect(movedApart([{ first: 100, last: 120, wanted: 200 }, single(150, 150)])).toEqual([129, 150]);
  });

  it('lets what lies on one tick stay there', () => {
    expect(movedApart([{ first: 90, last: 100, wanted: 90 }, single(100, 100)])).toEqual([90, 100]);
  });

  const lines = fc
    .array(
      fc.record({
        gap: fc.oneof(fc.integer({ min: 0, max: 3 }), fc.integer({ min: 0, max: 80 })),
        spread: fc.integer({ min: 0, max: 10 }),
        by: fc.integer({ min: -90, max: 90 }),
      }),
      { maxLength: 40 },
    )
    .map((list) => {
      let tick = 0;
      return list.map(({ gap, spread, by }): Movable => {
        const first = tick + gap;
        tick = first + spread;
        return { first, last: tick, wanted: first + by };
      });
    });

  it('what is apart stays apart, and everything comes to stand between where it is and where it is wanted', () => {
    fc.assert(
      fc.property(lines, (onsets) => {
        const places = movedApart(onsets);
        onsets.forEach(({ first, last, wanted }, index) => {
          const place = places[index] ?? Number.NaN;
          const to = Math.max(0, wanted);
          expect(place).toBeGreaterThanOrEqual(Math.min(first, to));
          expect(place).toBeLessThanOrEqual(Math.max(first, to));
          const next = onsets[index + 1];
          if (!next) return;
          const room = (places[index + 1] ?? Number.NaN) - (place + last - first);
          expect(room).toBeGreaterThanOrEqual(next.first > last ? 1 : 0);
        });
      }),
      { seed: 51, numRuns: draws(1000) },
    );
  });
});

describe('shareOfRoom', () => {
  it('leaves a tick between two neighbours that both use it', () => {
    for (let room = 1; room < 200; room += 1)
      for (const share of [0.1, 0.4, 0.45, 0.5])
        expect(room - 2 * shareOfRoom(room, share)).toBeGreaterThanOrEqual(1);
    expect(shareOfRoom(0, 0.45)).toBe(0);
    expect(shareOfRoom(100, 0.45)).toBe(45);
  });
});
