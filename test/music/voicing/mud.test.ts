import { describe, expect, it } from 'vitest';
import { lowIntervalLimits, mudOf } from '../../../src/music/voicing/mud.js';
import { neighboursOf } from '../../../src/music/voicing/spacing.js';

const mud = (...pitches: number[]) => mudOf(neighboursOf(pitches));

describe('low narrow intervals', () => {
  it('have the limits of arrangers (common practice, no source): E3, E♭3, C3, B2, A2', () => {
    expect([...lowIntervalLimits]).toEqual([
      [1, 52],
      [2, 51],
      [3, 48],
      [4, 47],
      [5, 45],
    ]);
  });

  it('are told with their limit', () => {
    expect(mud(43, 47, 62)).toEqual([{ lower: 43, upper: 47, semitones: 4, limit: 47 }]); // G2 B2 below B2
    expect(mud(36, 39)).toEqual([{ lower: 36, upper: 39, semitones: 3, limit: 48 }]); // C2 E♭2
  });

  it('are clear from their limit on, and wide ones everywhere', () => {
    expect(mud(47, 51)).toEqual([]);
    expect(mud(48, 51, 55)).toEqual([]);
    expect(mud(52, 53)).toEqual([]);
    expect(mud(24, 31, 43)).toEqual([]); // a fifth and an octave
  });
});
