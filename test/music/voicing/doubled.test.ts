import { describe, expect, it } from 'vitest';
import type { Chord, Key } from '../../../src/music/harmony/types.js';
import { doubledOf } from '../../../src/music/voicing/doubled.js';

const voiced = (...pitches: readonly (readonly [pitch: number, ...parts: number[]])[]) =>
  pitches.map(([pitch, ...parts]) => ({ pitch, parts }));
const chordOn = (root: number, ...intervals: number[]): Chord => {
  return { root, intervals, name: '', inversion: 0 };
};
const cMajor: Key = { tonic: 0, mode: 'major', name: 'C major', fifths: 0 };

describe('doubled tones', () => {
  it('are in octaves, in unison, or both', () => {
    const chord = chordOn(0, 0, 4, 7);
    const doubled = doubledOf(voiced([48, 3], [55, 1, 2], [60, 0, 1], [64, 2]), { chord });
    expect(
      doubled.map(({ pitchClass, tone, by, times, parts }) => [pitchClass, tone, by, times, parts]),
    ).toEqual([
      [0, 'root', 'both', 3, [0, 1, 3]],
      [7, 'fifth', 'unison', 2, [1, 2]],
    ]);
    expect(doubledOf(voiced([48, 0], [52, 1], [55, 2], [64, 3]), { chord })).toMatchObject([
      { pitchClass: 4, tone: 'third', by: 'octaves', pitches: [52, 64], parts: [1, 3] },
    ]);
  });

  it('are named by their place in the chord', () => {
    const toneOf = (chord: Chord, pitch: number) =>
      doubledOf(voiced([pitch, 0], [pitch + 12, 1]), { chord })[0]?.tone;
    expect([48, 51, 54, 57].map((pitch) => toneOf(chordOn(0, 0, 3, 6, 9), pitch))).toEqual([
      'root',
      'third',
      'fifth',
      'seventh',
    ]);
    expect([52, 56].map((pitch) => toneOf(chordOn(0, 0, 4, 8), pitch))).toEqual(['third', 'fifth']);
    expect([50, 53, 57].map((pitch) => toneOf(chordOn(0, 0, 4, 7, 9), pitch))).toEqual([
      'added',
      'added',
      'added',
    ]);
    expect(toneOf(chordOn(7, 0, 4, 7, 10), 53)).toBe('seventh');
  });

  it('have the leading tone where the chord lies on the fifth or seventh degree', () => {
    const b = voiced([47, 0], [59, 1]);
    const leading = (chord: Chord | null, key?: Key) =>
      doubledOf(b, { chord, ...(key && { key }) })[0]?.leading;
    expect(leading(chordOn(7, 0, 4, 7), cMajor)).toBe(true); // G major
    expect(leading(chordOn(11, 0, 3, 6), cMajor)).toBe(true); // B diminished
    expect(leading(chordOn(4, 0, 3, 7), cMajor)).toBe(false); // E minor: the fifth of III
    expect(leading(chordOn(7, 0, 4, 7), { ...cMajor, tonic: 7 })).toBe(false);
    expect(leading(chordOn(7, 0, 4, 7))).toBe(false);
    expect(leading(null, cMajor)).toBe(false);
  });

  it('are none where each sounds once', () => {
    expect(doubledOf(voiced([48, 0], [52, 1], [55, 2]), {})).toEqual([]);
  });
});
