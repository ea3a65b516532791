import { describe, expect, it } from 'vitest';
import { bareOf, builtOf, gapsOf, neighboursOf, positionOf } from '../../../src/music/voicing/spacing.js';

const spacing = (...pitches: number[]) => neighboursOf(pitches).map(({ semitones }) => semitones);

describe('position', () => {
  // J. Rushton, "Spacing", New Grove: close where the three upper parts span less than an octave, open where more
  it('of four voices is close where the upper three span less than an octave', () => {
    expect(positionOf([48, 64, 67, 72])).toBe('close'); // C3 | E4 G4 C5: 8 semitones
    expect(positionOf([36, 67, 72, 76])).toBe('close'); // C2 | G4 C5 E5: 9, however far away the bass
    expect(positionOf([48, 60, 64, 71])).toBe('close'); // C3 | C4 E4 B4: 11
    expect(positionOf([48, 55, 64, 72])).toBe('open'); // C3 | G3 E4 C5: 17
  });

  it('of the C major triad is close as C E G and open as C G E G (the example of "Close and open harmony", Wikipedia)', () => {
    expect(positionOf([60, 64, 67])).toBe('close');
    expect(positionOf([60, 67, 76, 79])).toBe('open');
  });

  it('of three pitches counts all of them', () => {
    expect(positionOf([48, 55, 64])).toBe('open'); // 16
    expect(positionOf([60, 67])).toBeNull();
  });

  it('of many goes by what most of the upper voices do', () => {
    // C2 | C3 G3 E4, G3 E4 G4 (12), E4 G4 C5 (8), G4 C5 E5 (9), C5 E5 G5 (7): three of five within
    expect(positionOf([36, 48, 55, 64, 67, 72, 76, 79])).toBe('close');
    // C2 | G2 G3 E4 (21), G3 E4 C5 (17), E4 C5 G5 (15)
    expect(positionOf([36, 43, 55, 64, 72, 79])).toBe('open');
    // a close chord whose melody is doubled an octave higher stays close: E4 G4 C5 (8), G4 C5 C6 (17)
    expect(positionOf([48, 64, 67, 72, 84])).toBe('close');
  });
});

describe('what a chord is built of', () => {
  it('is thirds in a triad in close position, whatever its bass', () => {
    expect(builtOf(spacing(60, 64, 67))).toBe('thirds');
    expect(builtOf(spacing(64, 67, 72))).toBe('thirds');
    expect(builtOf(spacing(67, 72, 76))).toBe('thirds');
    expect(builtOf(spacing(60, 64, 67, 70))).toBe('thirds');
  });

  it('is fourths and fifths where they are stacked, seconds in a cluster', () => {
    expect(builtOf(spacing(48, 53, 58, 63))).toBe('fourths and fifths');
    expect(builtOf(spacing(48, 55, 62, 69))).toBe('fourths and fifths');
    expect(builtOf(spacing(36, 48, 55, 62))).toBe('fourths and fifths');
    expect(builtOf(spacing(60, 62, 63, 65))).toBe('seconds');
    expect(builtOf(spacing(48, 55, 64))).toBe('mixed'); // a fifth and a sixth
    expect(builtOf(spacing(48, 60, 72))).toBe('mixed');
  });
});

describe('bare sounds', () => {
  it('are octaves, fifths or fourths alone', () => {
    expect(bareOf([36, 48, 60])).toBe('octaves');
    expect(bareOf([36, 43, 48, 55])).toBe('fifths');
    expect(bareOf([43, 48, 55])).toBe('fourths');
    expect(bareOf([36, 43, 52])).toBeNull();
    expect(bareOf([36, 52])).toBeNull();
    expect(bareOf([36, 43, 50])).toBeNull();
  });
});

describe('gaps', () => {
  const gaps = (...pitches: number[]) =>
    gapsOf(neighboursOf(pitches)).map(({ lower, upper, semitones }) => [lower, upper, semitones]);
  it('are more than an octave between upper voices', () => {
    expect(gaps(48, 55, 64, 79)).toEqual([[64, 79, 15]]);
    expect(gaps(48, 55, 64, 76)).toEqual([]); // an octave is none
  });
  it('are none between the bass and the next voice, or above octaves of the bass', () => {
    expect(gaps(36, 60, 64, 67)).toEqual([]);
    expect(gaps(36, 48, 67, 72)).toEqual([]);
    expect(gaps(36, 48, 55, 72)).toEqual([[55, 72, 17]]);
  });
});
