import { Key, Note } from 'tonal';
import { describe, expect, it } from 'vitest';
import { signatureAlter, spell } from '../../../src/sheet/notate/spelling.js';

const signatures = [-7, -6, -5, -4, -3, -2, -1, 0, 1, 2, 3, 4, 5, 6, 7];
const majors = ['Cb', 'Gb', 'Db', 'Ab', 'Eb', 'Bb', 'F', 'C', 'G', 'D', 'A', 'E', 'B', 'F#', 'C#'];

function nameOf(pitch: number, fifths: number): string {
  const { step, alter, octave } = spell(pitch, fifths);
  return step.toUpperCase() + (alter < 0 ? 'b'.repeat(-alter) : '#'.repeat(alter)) + octave;
}

// Outside check: tonal reads the names back.
it.each(signatures)('every pitch keeps its pitch under a signature of %d', (fifths) => {
  for (let pitch = 0; pitch < 128; pitch += 1) expect(Note.midi(nameOf(pitch, fifths))).toBe(pitch);
});

it('spells the tones of every major key and its relative minor as tonal does', () => {
  majors.forEach((tonic, index) => {
    const fifths = signatures[index] ?? 0;
    for (const name of Key.majorKey(tonic).scale) {
      const pitch = Note.midi(`${name}4`) ?? 0;
      expect(nameOf(pitch, fifths)).toBe(`${name}4`);
      expect(signatureAlter(spell(pitch, fifths).step, fifths)).toBe(spell(pitch, fifths).alter);
    }
  });
});

describe('chromatic notes', () => {
  // The raised sixth and seventh of minor keys as tonal's melodic minor scale has them.
  it.each([
    ['A', 0],
    ['E', 1],
    ['F#', 3],
    ['D', -1],
    ['C', -3],
    ['F', -4],
    ['Bb', -5],
  ])('of %s minor', (tonic, fifths) => {
    for (const name of Key.minorKey(tonic).melodic.scale) {
      const pitch = Note.midi(`${name}4`) ?? 0;
      expect(nameOf(pitch, fifths)).toBe(`${name}4`);
    }
  });

  it('in C: two flats and three sharps', () => {
    expect([61, 63, 66, 68, 70].map((pitch) => nameOf(pitch, 0))).toEqual([
      'C#4',
      'Eb4',
      'F#4',
      'G#4',
      'Bb4',
    ]);
  });
});

describe('a name that the harmony tells', () => {
  const named = (pitch: number, fifths: number, place: number) => {
    const { step, alter } = spell(pitch, fifths, place);
    return [step, alter];
  };

  it('is written: F sharp in C minor, A flat in C major', () => {
    expect(named(66, -3, 6)).toEqual(['f', 1]);
    expect(named(68, 0, -4)).toEqual(['a', -1]);
  });

  it('is not, where it is another pitch, or farther from the signature than notes are named', () => {
    expect(named(66, -3, 5)).toEqual(['g', -1]);
    // D flat in a signature of five sharps.
    expect(named(61, 5, -5)).toEqual(['c', 1]);
  });
});
