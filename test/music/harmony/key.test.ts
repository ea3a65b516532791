import { describe, expect, it } from 'vitest';
import { harmonyOf } from '../../../src/music/harmony/index.js';
import type { SoundingNote } from '../../../src/music/harmony/types.js';
import { beat, chordsOf, clockFor } from './support.js';

const majors = ['C', 'D♭', 'D', 'E♭', 'E', 'F', 'G♭', 'G', 'A♭', 'A', 'B♭', 'B'].map(
  (name) => `${name} major`,
);
const minors = ['C', 'C♯', 'D', 'E♭', 'E', 'F', 'F♯', 'G', 'G♯', 'A', 'B♭', 'B'].map(
  (name) => `${name} minor`,
);
const tonics = Array.from({ length: 12 }, (_, tonic) => tonic);

const triads = { M: [0, 4, 7], m: [0, 3, 7], d: [0, 3, 6], '7': [0, 4, 7, 10] };
/** Chords as "0M 5M 7M": semitones of the root above the tonic, and the kind. */
const progression = (text: string, tonic = 0) =>
  text.split(' ').map((chord) => {
    const kind = chord.slice(-1);
    if (kind !== 'M' && kind !== 'm' && kind !== 'd' && kind !== '7') throw new Error(`no chord: ${chord}`);
    return triads[kind].map((tone) => 48 + tonic + Number(chord.slice(0, -1)) + tone);
  });
const keysOf = (notes: readonly SoundingNote[]) => [
  ...new Set(harmonyOf(notes, clockFor(), { per: 'found' }).map(({ key }) => key.name)),
];

describe('the key', () => {
  const scales = {
    major: [0, 2, 4, 5, 7, 9, 11, 12],
    'natural minor': [0, 2, 3, 5, 7, 8, 10, 12],
    'harmonic minor': [0, 2, 3, 5, 7, 8, 11, 12],
  };
  it.each(Object.entries(scales))('of each %s scale', (mode, scale) => {
    for (const tonic of tonics) {
      const notes = scale.map((tone, index): SoundingNote => {
        return {
          tick: index * 240,
          endTick: (index + 1) * 240,
          pitch: 60 + tonic + tone,
          velocity: 80,
          part: 0,
        };
      });
      expect(keysOf(notes)).toEqual([(mode === 'major' ? majors : minors)[tonic]]);
    }
  });

  // Cadences of any course of harmony; loops and borrowed chords of songs and film (common practice, no source).
  it.each([
    ['I IV V I', '0M 5M 7M 0M', majors],
    ['I vi ii V7 I', '0M 9m 2m 77 0M', majors],
    ['IV V I', '5M 7M 0M', majors],
    ['I V vi IV', '0M 7M 9m 5M', majors],
    ['i iv V i', '0m 5m 7M 0m', minors],
    ['i ii° V7 i', '0m 2d 77 0m', minors],
    ['i ♭VII ♭VI V i', '0m 10M 8M 7M 0m', minors],
    ['i ♭VI ♭III ♭VII', '0m 8M 3M 10M', minors],
    ['i ♭II V i', '0m 1M 7M 0m', minors],
    ['I ♭VI ♭VII I', '0M 8M 10M 0M', majors],
    ['I ♭III IV I', '0M 3M 5M 0M', majors],
    ['I ♭VII IV I', '0M 10M 5M 0M', majors],
    ['I iv I', '0M 5m 0M', majors],
  ])('of %s, in twelve keys, slow and fast', (_, chords, names) => {
    for (const tonic of tonics)
      for (const length of [1, 2, 4])
        expect(keysOf(chordsOf(progression(chords, tonic), length))).toEqual([names[tonic]]);
  });

  it.each([
    ['I ♭VI ♭VII I', '0M 8M 10M 0M'],
    ['I V vi IV', '0M 7M 9m 5M'],
    ['I iv I V', '0M 5m 0M 7M'],
  ])('of %s stays through four rounds of four-bar loops', (_, loop) => {
    for (const tonic of tonics) {
      const chords = progression([loop, loop, loop, loop].join(' '), tonic);
      expect(keysOf(chordsOf(chords, 4))).toEqual([majors[tonic]]);
    }
  });

  it('changes once where the music modulates, and not for one borrowed dominant', () => {
    const inC = '0M 5M 7M 0M 0M 27 77 0M';
    const inEflat = '3M 8M 10M 3M 3M 8M 107 3M';
    const chords = progression([inC, inC, inEflat, inEflat].join(' '));
    const found = harmonyOf(chordsOf(chords, 4), clockFor(), { per: 'bar' });
    const changes = found.filter(({ key }, index) => index > 0 && key !== found[index - 1]?.key);
    expect(found[0]?.key.name).toBe('C major');
    expect(changes.map(({ key }) => key.name)).toEqual(['E♭ major']);
    expect(Math.abs((changes[0]?.tick ?? 0) / beat / 4 - 16)).toBeLessThanOrEqual(2);
  });
});
