import { describe, expect, it } from 'vitest';
import { ornaments } from '../../../src/music/harmony/ornament.js';

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
});
