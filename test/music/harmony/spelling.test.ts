import { describe, expect, it } from 'vitest';
import { degreeOfFifths, nameOfFifths, plainly } from '../../../src/music/harmony/fifths.js';
import { harmonyOf, pitchName } from '../../../src/music/harmony/index.js';
import { keyOf } from '../../../src/music/harmony/keys.js';
import { chordsOf, clockFor } from './support.js';

const names = (chords: readonly (readonly number[])[]) =>
  harmonyOf(chordsOf(chords), clockFor(), { per: 'found' }).map(({ chord }) => chord?.name);

describe('spelling', () => {
  it('follows the line of fifths', () => {
    expect([-8, -1, 0, 1, 6, 12].map(nameOfFifths)).toEqual(['F♭', 'F', 'C', 'G', 'F♯', 'B♯']);
    expect([-9, 13, -8, 12].map(plainly).map(nameOfFifths)).toEqual(['A', 'G', 'F♭', 'B♯']);
    expect(degreeOfFifths(-3)).toEqual({ degree: 3, alteration: -1 });
  });

  // Key signatures of the circle of fifths.
  it('has the key signatures of the circle of fifths', () => {
    expect([0, 2, 3, 6, 8, 11].map((tonic) => keyOf(tonic, 'major').fifths)).toEqual([0, 2, -3, -6, -4, 5]);
    expect([9, 0, 1, 3, 6].map((tonic) => keyOf(tonic, 'minor').fifths)).toEqual([0, -3, 4, -6, 3]);
  });

  it('is that of the key, and in a chord that of its thirds', () => {
    const cMinor = [
      [48, 51, 55],
      [51, 55, 58],
      [44, 48, 51],
      [43, 47, 50, 53],
      [48, 51, 55],
    ];
    expect(names(cMinor)).toEqual(['Cm', 'E♭', 'A♭', 'G7', 'Cm']);
    const aMajor = [
      [45, 49, 52],
      [49, 52, 56],
      [42, 45, 49],
      [44, 47, 50, 52],
      [45, 49, 52],
    ];
    expect(names(aMajor)).toEqual(['A', 'C♯m', 'F♯m', 'E7/G♯', 'A']);
  });

  it('has octaves that change with the letter C, middle C being C4', () => {
    const at = { key: keyOf(6, 'major'), chord: null };
    expect(pitchName(60, { key: keyOf(0, 'major'), chord: null })).toBe('C4');
    expect(pitchName(59, at)).toBe('C♭4');
    expect(pitchName(58, at)).toBe('B♭3');
  });
});
