import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clockOf } from '../../src/midi/clock/index.js';
import { type Duration, isAtLeast, tickAfter, tickBefore } from '../../src/midi/duration.js';
import { draws } from '../support/draws.js';
import { songWith, tempo } from './clock/songs.js';

const ms = (length: number): Duration => ({ unit: 'ms', ms: length });
const part = (numerator: number, denominator: number): Duration => ({
  unit: 'whole',
  numerator,
  denominator,
});

describe('a span and a duration', () => {
  it('compare in real time, the bound included', () => {
    const span = { ms: 130, ticks: 0 };
    expect([129, 130, 131].map((length) => isAtLeast(span, ms(length), 1920))).toEqual([true, true, false]);
    expect(isAtLeast(span, ms(130), null)).toBe(true);
  });

  it('compare in ticks where the duration is a fraction', () => {
    // A triplet eighth at 480 ticks to the quarter is 160 ticks, a dotted eighth 360.
    expect([159, 160].map((ticks) => isAtLeast({ ms: 0, ticks }, part(1, 12), 1920))).toEqual([false, true]);
    expect([359, 360].map((ticks) => isAtLeast({ ms: 0, ticks }, part(3, 16), 1920))).toEqual([false, true]);
    // A septuplet is no whole number of ticks: 274.28…
    expect([274, 275].map((ticks) => isAtLeast({ ms: 0, ticks }, part(1, 7), 1920))).toEqual([false, true]);
  });

  it('a fraction is never reached where there are no beats', () => {
    expect(isAtLeast({ ms: 1e9, ticks: 1e9 }, part(1, 16), null)).toBe(false);
  });

  it('an endless span reaches every duration', () => {
    const endless = { ms: Number.POSITIVE_INFINITY, ticks: Number.POSITIVE_INFINITY };
    expect([ms(1e12), part(1000, 1)].map((duration) => isAtLeast(endless, duration, 1920))).toEqual([
      true,
      true,
    ]);
  });
});

describe('the tick a duration away', () => {
  const clock = clockOf(songWith([[tempo(0, 500_000), tempo(480, 1_000_000)]]), 1);

  it('is that nearest in real time', () => {
    // A tick is 1.0417 ms at 120 bpm: 25 ms are 24 ticks; at 60 bpm 12.
    expect(tickBefore(clock, 240, ms(25))).toBe(216);
    expect(tickAfter(clock, 240, ms(25))).toBe(264);
    expect(tickBefore(clock, 960, ms(25))).toBe(948);
    expect(tickBefore(clock, 960, ms(20))).toBe(950);
  });

  it('is measured across a tempo change', () => {
    // 6 ticks at 60 bpm are 12.5 ms, 12 at 120 the other 12.5.
    expect(tickBefore(clock, 486, ms(25))).toBe(468);
    expect(tickAfter(clock, 468, ms(25))).toBe(486);
  });

  it('is that nearest to a fraction of a whole note', () => {
    expect(tickBefore(clock, 960, part(1, 16))).toBe(840);
    expect(tickAfter(clock, 960, part(1, 7))).toBe(960 + 274);
    expect(tickBefore(clock, 960, part(1, 7))).toBe(960 - 274);
  });

  it('is never below 0', () => {
    expect(tickBefore(clock, 10, ms(25))).toBe(0);
    expect(tickBefore(clock, 10, part(1, 16))).toBe(0);
    expect(tickBefore(clock, 0, ms(0))).toBe(0);
  });

  it('is the same tick for a fraction where there are no beats', () => {
    const smpte = clockOf(songWith([[]], { division: 0xe728 }), 1);
    expect(tickBefore(smpte, 100, part(1, 16))).toBe(100);
    expect(tickAfter(smpte, 100, part(1, 16))).toBe(100);
    expect(tickBefore(smpte, 100, ms(30))).toBe(70);
  });

  it('lies on its side of the tick, and is that tick for no duration', () => {
    const duration = fc.oneof(
      fc.double({ min: 0, max: 5000, noNaN: true }).map(ms),
      fc.tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 64 })).map((pair) => part(...pair)),
    );
    fc.assert(
      fc.property(fc.nat(100_000), duration, (tick, length) => {
        expect(tickBefore(clock, tick, length)).toBeLessThanOrEqual(tick);
        expect(tickAfter(clock, tick, length)).toBeGreaterThanOrEqual(tick);
        expect([tickBefore(clock, tick, ms(0)), tickAfter(clock, tick, ms(0))]).toEqual([tick, tick]);
      }),
      { seed: 330, numRuns: draws(500) },
    );
  });
});
