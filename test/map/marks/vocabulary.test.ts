import { describe, expect, it } from 'vitest';
import { canonicalMark, knownMarks } from '../../../src/map/marks/vocabulary.js';

describe('the vocabulary of marks', () => {
  it('has every MusicXML 4.0 articulation (from memory)', () => {
    const articulations =
      `accent strong-accent staccato tenuto detached-legato staccatissimo spiccato scoop plop doit
      falloff breath-mark caesura stress unstress soft-accent`.split(/\s+/u);
    for (const name of articulations) expect(canonicalMark(name)).toBe(name);
  });

  it('has the playing words of the trade (common practice, no source)', () => {
    for (const word of [
      'arco',
      'pizz.',
      'con sord.',
      'senza sord.',
      'col legno',
      'sul pont.',
      'sul tasto',
      'legato',
    ])
      expect(canonicalMark(word)).toBe(word);
  });

  it('takes words for the elements that they abbreviate', () => {
    expect(['stacc.', 'ten.', 'marc.', 'trem.'].map(canonicalMark)).toEqual([
      'staccato',
      'tenuto',
      'strong-accent',
      'tremolo',
    ]);
  });

  it('does not mind case and spaces, and knows no other names', () => {
    expect(canonicalMark('  Con   Sord. ')).toBe('con sord.');
    for (const name of ['staccatto', '', '__proto__', 'constructor'])
      expect(canonicalMark(name)).toBeUndefined();
    expect(new Set(knownMarks).size).toBe(knownMarks.length);
  });
});
