import { describe, expect, it } from 'vitest';
import type { ChordToVoice } from '../../../src/arrange/voice/chords.js';
import { faultsOf, isGap, isMuddy } from '../../../src/arrange/voice/faults.js';

describe('isMuddy', () => {
  // A music dealer's online glossary, "Low Interval Limit", with middle C as C4.
  it.each([
    ['minor second', 1, 52],
    ['major second', 2, 51],
    ['minor third', 3, 48],
    ['major third', 4, 47],
    ['fourth', 5, 45],
    ['tritone', 6, 35],
    ['fifth', 7, 37],
    ['minor sixth', 8, 41],
    ['major seventh', 11, 41],
  ])('a %s is clear from its limit on', (_, semitones, limit) => {
    expect(isMuddy(limit, limit + semitones)).toBe(false);
    expect(isMuddy(limit - 1, limit - 1 + semitones)).toBe(true);
  });

  it('octaves and more are always clear', () => {
    expect([12, 14, 19, 24].some((semitones) => isMuddy(24, 24 + semitones))).toBe(false);
  });
});

describe('faultsOf', () => {
  const major: ChordToVoice = {
    from: 0,
    to: 1,
    tones: new Map([
      [0, 'root'],
      [4, 'third'],
      [7, 'fifth'],
    ]),
    bass: 0,
    tune: null,
    tuneOnly: new Set(),
    leading: [11],
    thirds: [[4, 0]],
  };
  const faults = (...pitches: number[]) => faultsOf([...new Set(pitches)], pitches, major);

  it('finds each thing that a layout is not to have', () => {
    expect(faults(48, 60, 64, 67)).toBe(0);
    expect(faults(46, 50, 55)).toBe(1); // a third too low
    expect(faults(48, 60, 64, 79)).toBe(1); // more than an octave between upper voices
    expect(faults(48, 64, 76)).toBe(1); // two thirds, one root
    expect(faults(48, 59, 71)).toBe(1); // the leading tone twice
    expect(faults(48, 55, 60)).toBe(1); // no third: fifths alone
    expect(faults(36, 48, 64, 67)).toBe(0); // an octave of the bass on it is part of it: from there, too, it may be far
  });

  it('lets the bass lie two octaves below, octaves on it aside', () => {
    expect(isGap(36, 60, true)).toBe(false);
    expect(isGap(36, 61, true)).toBe(true);
    expect(isGap(48, 61, false)).toBe(true);
  });
});
