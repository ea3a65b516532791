import { describe, expect, it } from 'vitest';
import { belongs, qualityOf } from '../../../src/music/harmony/belonging.js';
import { keyOf, keys } from '../../../src/music/harmony/keys.js';

// Triads of the scales, as any course of harmony has them.
describe('chords in a key', () => {
  const cMajor = keyOf(0, 'major');
  const cMinor = keyOf(0, 'minor');

  it('speak most for the key whose tonic they are, then for those whose scale has them', () => {
    const by = (root: number, quality: 'major' | 'minor') =>
      [...keys]
        .sort((a, b) => belongs({ root, quality }, b) - belongs({ root, quality }, a))
        .map(({ name }) => name);
    // C major is I in C, V in F major and in F minor.
    expect(new Set(by(0, 'major').slice(0, 3))).toEqual(new Set(['C major', 'F major', 'F minor']));
    expect(by(0, 'minor')[0]).toBe('C minor');
  });

  it('tell a key by the dominant seventh: its own in both modes', () => {
    const fits = keys.filter((key) => belongs({ root: 7, quality: 'dominant' }, key) === 1);
    expect(fits).toEqual([cMajor, cMinor]);
  });

  it('speak against keys that have no place for them, and not at all where there is none', () => {
    expect(belongs({ root: 6, quality: 'minor' }, cMajor)).toBeLessThan(0);
    expect(belongs(null, cMajor)).toBe(0);
  });

  it('have the quality of their third and fifth', () => {
    expect(qualityOf([0, 4, 7])).toBe('major');
    expect(qualityOf([0, 4, 7, 10])).toBe('dominant');
    expect(qualityOf([0, 4, 7, 11])).toBe('major');
    expect(qualityOf([0, 3, 7, 10])).toBe('minor');
    expect(qualityOf([0, 3, 6, 10])).toBe('diminished');
    expect(qualityOf([0, 4, 8])).toBeNull();
    expect(qualityOf([0, 5, 7])).toBeNull();
  });
});
