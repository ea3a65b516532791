import { describe, expect, it } from 'vitest';
import { clockOf } from '../../../src/midi/clock/index.js';
import { signature, songWith, tempo } from './songs.js';

const clockWith = (division: number) =>
  clockOf(songWith([[tempo(0, 250_000), signature(0, 3, 4)]], { division, format: 1 }), 1);

describe('the clock of a file that counts SMPTE frames', () => {
  it('counts milliseconds with 25 frames of 40 ticks (Standard MIDI File 1.0), whatever the tempo', () => {
    const clock = clockWith(0xe728);
    expect([0, 1, 1000, 3_600_000].map(clock.ms)).toEqual([0, 1, 1000, 3_600_000]);
    expect([0, 1.4, 1.6, 1000, -5].map(clock.tickAt)).toEqual([0, 1, 2, 1000, 0]);
  });

  it('counts 24, 25 and 30 frames in a second', () => {
    expect(clockWith(0xe804).ms(24 * 4)).toBe(1000);
    expect(clockWith(0xe708).ms(25 * 8)).toBe(1000);
    expect(clockWith(0xe264).ms(30 * 100)).toBe(1000);
  });

  it('counts 30,000 frames in 1,001 seconds for 29 (SMPTE ST 12-1; from memory)', () => {
    const clock = clockWith(0xe350);
    expect(clock.ms(30_000 * 80)).toBe(1_001_000);
    expect(clock.ms(80)).toBeCloseTo(33.366_666_667, 6);
    expect(clock.tickAt(1_001_000)).toBe(30_000 * 80);
  });

  it('knows no beats and no bars', () => {
    const clock = clockWith(0xe728);
    expect(clock.ticksPerWhole).toBeNull();
    expect(clock.position(0)).toBeNull();
    expect(clock.barStart(1)).toBeNull();
  });
});
