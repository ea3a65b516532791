import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clockOf } from '../../../src/midi/clock/index.js';
import { draws } from '../../support/draws.js';
import { type Meta, signature, songWith } from './songs.js';

const clockWith = (events: readonly Meta[], division = 480) => clockOf(songWith([events], { division }), 1);
const at = (clock: ReturnType<typeof clockWith>, tick: number) => {
  const position = clock.position(tick);
  return position && [position.bar, position.beat];
};

describe('bars and beats', () => {
  it('are of 4/4 until the file says otherwise (Standard MIDI File 1.0)', () => {
    const clock = clockWith([]);
    expect(clock.ticksPerWhole).toBe(1920);
    expect([0, 479, 480, 1919, 1920, 19_200].map((tick) => at(clock, tick))).toEqual([
      [1, 1],
      [1, 1],
      [1, 2],
      [1, 4],
      [2, 1],
      [11, 1],
    ]);
  });

  it('go through 4/4, 6/8 and 3/4', () => {
    // Counted by hand: two bars of 1920 ticks, three of 6 × 240 = 1440, then bars of 3 × 480 = 1440.
    const clock = clockWith([signature(0, 4, 4), signature(3840, 6, 8), signature(8160, 3, 4)]);
    const counted: [tick: number, bar: number, beat: number][] = [
      [1919, 1, 4],
      [1920, 2, 1],
      [3839, 2, 4],
      [3840, 3, 1],
      [4079, 3, 1],
      [4080, 3, 2],
      [5279, 3, 6],
      [5280, 4, 1],
      [8159, 5, 6],
      [8160, 6, 1],
      [8640, 6, 2],
      [9599, 6, 3],
      [9600, 7, 1],
    ];
    for (const [tick, bar, beat] of counted) expect(at(clock, tick)).toEqual([bar, beat]);
    // In any order: what was asked before does not matter.
    for (const [tick, bar, beat] of [...counted].reverse()) expect(at(clock, tick)).toEqual([bar, beat]);
    expect([1, 2, 3, 4, 5, 6, 7, 8].map((bar) => clock.barStart(bar))).toEqual([
      0, 1920, 3840, 5280, 6720, 8160, 9600, 11_040,
    ]);
    expect(clock.barStart(2, 3)).toBe(2880);
    expect(clock.barStart(4, 6)).toBe(6480);
    expect(clock.barStart(7, 2)).toBe(10_080);
  });

  it('begin anew where the signature changes in the middle of a bar', () => {
    const clock = clockWith([signature(0, 4, 4), signature(2400, 3, 4)]);
    expect(at(clock, 2399)).toEqual([2, 1]);
    expect(at(clock, 2400)).toEqual([3, 1]);
    expect(at(clock, 2400 + 1440)).toEqual([4, 1]);
    expect(clock.barStart(3)).toBe(2400);
    // A beat that the bar does not have is where the next bar begins.
    expect(clock.barStart(2, 4)).toBe(2400);
    expect(clock.barStart(1, 9)).toBe(1920);
  });

  it('go on where the signature is the same as before', () => {
    const clock = clockWith([signature(0, 4, 4), signature(2400, 4, 4)]);
    expect(at(clock, 2400)).toEqual([2, 2]);
    expect(at(clock, 3840)).toEqual([3, 1]);
  });

  it('begin with a first signature that comes late', () => {
    const clock = clockWith([signature(1920, 5, 8)]);
    expect(at(clock, 1919)).toEqual([1, 4]);
    expect(at(clock, 1920 + 4 * 240)).toEqual([2, 5]);
    expect(at(clock, 1920 + 5 * 240)).toEqual([3, 1]);
  });

  it('hold where a beat is no whole number of ticks', () => {
    // 7/64 at 24 ticks to the quarter: a beat is a tick and a half, a bar ten and a half.
    const clock = clockWith([signature(0, 7, 64)], 24);
    expect([0, 1, 2, 3, 10, 11, 20, 21].map((tick) => at(clock, tick))).toEqual([
      [1, 1],
      [1, 1],
      [1, 2],
      [1, 3],
      [1, 7],
      [2, 1],
      [2, 7],
      [3, 1],
    ]);
    expect(clock.barStart(2)).toBe(11);
    expect(clock.barStart(3)).toBe(21);
  });

  it('are of a time signature of two bytes, or without thirty-seconds, too', () => {
    expect(at(clockWith([{ tick: 0, type: 0x58, data: [3, 2] }]), 1440)).toEqual([2, 1]);
    expect(at(clockWith([{ tick: 0, type: 0x58, data: [3, 3, 24, 0] }]), 720)).toEqual([2, 1]);
  });

  it('are not of a time signature that means nothing', () => {
    const nothing = [[0, 2, 24, 8], [3, 11, 24, 8], [3, 200, 24, 8], [3], []];
    for (const data of nothing) expect(at(clockWith([{ tick: 0, type: 0x58, data }]), 1920)).toEqual([2, 1]);
  });

  it('are read from all tracks in format 1, from their own in format 2', () => {
    const tracks = [[], [signature(0, 3, 4)]];
    const bar = (format: number, track: number) =>
      clockOf(songWith(tracks, { format }), track).position(1440)?.bar;
    expect([bar(1, 1), bar(1, 2), bar(2, 1), bar(2, 2)]).toEqual([2, 2, 1, 2]);
  });

  it('of a tick begin at or before it, and their first tick is theirs, for any signatures', () => {
    const changes = fc.array(
      fc.tuple(fc.nat(20_000), fc.integer({ min: 1, max: 13 }), fc.constantFrom(1, 2, 4, 8, 16, 32)),
      { maxLength: 12 },
    );
    fc.assert(
      fc.property(
        changes,
        fc.constantFrom(24, 96, 480),
        fc.array(fc.nat(60_000)),
        (signatures, ppq, ticks) => {
          const clock = clockWith(
            signatures.map((change) => signature(...change)),
            ppq,
          );
          for (const tick of ticks) {
            const { bar, beat } = clock.position(tick) ?? { bar: 0, beat: 0 };
            const start = clock.barStart(bar, beat) ?? Number.NaN;
            const next = clock.barStart(bar, beat + 1) ?? Number.NaN;
            expect(start).toBeLessThanOrEqual(tick);
            expect(next).toBeGreaterThan(tick);
            expect(clock.position(start)).toEqual({ bar, beat });
          }
        },
      ),
      { seed: 310, numRuns: draws(300) },
    );
  });
});
