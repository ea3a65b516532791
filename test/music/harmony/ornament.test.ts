import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ornaments } from '../../../src/music/harmony/ornament.js';
import { draws } from '../../support/draws.js';

const onBeat = (tick: number) => tick % 480 === 0;
const line = (...pitches: readonly number[]) =>
  pitches.map((pitch, index) => ({ tick: index * 240, endTick: (index + 1) * 240, pitch }));

// Passing and neighbouring tones as any course of counterpoint defines them.
describe('ornaments', () => {
  it('are tones between beats that are reached and left by step', () => {
    expect(ornaments(line(60, 62, 64), 480, onBeat)).toEqual([false, true, false]);
    expect(ornaments(line(60, 59, 60), 480, onBeat)).toEqual([false, true, false]);
  });

  it('are not tones on beats, tones that leap, repeated ones, or longer ones', () => {
    expect(ornaments(line(62, 64, 65, 67, 69), 480, onBeat)).toEqual([false, true, false, true, false]);
    expect(ornaments(line(60, 64, 65), 480, onBeat)).toEqual([false, false, false]);
    expect(ornaments(line(60, 60, 62), 480, onBeat)).toEqual([false, false, false]);
    const long = line(60, 62, 64).map(({ tick, endTick, pitch }) => ({
      tick: tick * 2 + 240,
      endTick: endTick * 2 + 240,
      pitch,
    }));
    expect(ornaments(long, 480, onBeat)).toEqual([false, false, false]);
  });

  it('are found as a search through all notes for each would find them', () => {
    const note = fc
      .tuple(
        fc.integer({ min: 0, max: 12 }),
        fc.integer({ min: 0, max: 4 }),
        fc.constantFrom(0, 1, 2, 60, 62, 126, 127),
      )
      .map(([place, length, pitch]) => ({ tick: place * 120, endTick: (place + length) * 120, pitch }));
    fc.assert(
      fc.property(fc.array(note, { maxLength: 40 }), (notes) => {
        const isStep = (from: number, to: number) => from !== to && Math.abs(from - to) <= 2;
        const expected = notes.map(
          ({ tick, endTick, pitch }) =>
            endTick - tick <= 240 &&
            !onBeat(tick) &&
            notes.some((before) => before.endTick === tick && isStep(before.pitch, pitch)) &&
            notes.some((behind) => behind.tick === endTick && isStep(pitch, behind.pitch)),
        );
        expect(ornaments(notes, 480, onBeat)).toEqual(expected);
      }),
      { numRuns: draws(300) },
    );
  });
});
