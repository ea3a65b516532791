import { describe, expect, it } from 'vitest';
import { harmonyOf } from '../../../src/music/harmony/index.js';
import { chordsOf, clockFor } from './support.js';

const tonics = Array.from({ length: 12 }, (_, tonic) => tonic);
const major = (root: number) => [root, root + 4, root + 7, root + 12];
const minor = (root: number) => [root, root + 3, root + 7, root + 12];
const told = (chords: readonly (readonly number[])[]) =>
  harmonyOf(chordsOf(chords, 4), clockFor(), { per: 'found' }).map(({ degree, altered }) => [
    degree,
    altered.join(' '),
  ]);

// Numerals and alterations by common practice of harmony teaching; worked by hand.
describe('degrees and alterations', () => {
  it('of borrowed chords, in twelve keys', () => {
    for (const tonic of tonics) {
      const at = 48 + tonic;
      expect(told([major(at), major(at + 8), major(at + 10), major(at)])).toEqual([
        ['I', ''],
        ['♭VI', '♭3 ♭6'],
        ['♭VII', '♭7'],
        ['I', ''],
      ]);
      expect(told([major(at), major(at + 3), major(at + 5), major(at)])).toEqual([
        ['I', ''],
        ['♭III', '♭3 ♭7'],
        ['IV', ''],
        ['I', ''],
      ]);
    }
  });

  it('of secondary dominants: a raised tone is told as raised', () => {
    for (const tonic of tonics) {
      const at = 48 + tonic;
      expect(told([major(at), [...major(at + 2), at + 12], major(at + 7), major(at)])[1]).toEqual([
        'II',
        '♯4',
      ]);
      expect(
        told([major(at), [...major(at + 4), at + 14], minor(at + 9), major(at + 7), major(at)])[1],
      ).toEqual(['III', '♯5']);
    }
  });

  it('in minor: its own degrees are not altered, raised ones carry a natural', () => {
    for (const tonic of tonics) {
      const at = 48 + tonic;
      expect(told([minor(at), major(at + 8), major(at + 5), major(at + 7), minor(at)])).toEqual([
        ['i', ''],
        ['♭VI', ''],
        ['IV', '♮6'],
        ['V', '♮7'],
        ['i', ''],
      ]);
      expect(told([minor(at), major(at + 1), major(at + 7), minor(at)])[1]).toEqual(['♭II', '♭2']);
    }
  });
});
