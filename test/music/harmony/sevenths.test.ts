import { describe, expect, it } from 'vitest';
import { harmonyOf } from '../../../src/music/harmony/index.js';
import { clockFor, inOrder, voice } from './support.js';

const named = (...voices: readonly string[]) =>
  harmonyOf(inOrder(voices.flatMap((text, part) => voice(text, part))), clockFor(), { per: 'found' }).map(
    ({ bar, beat, chord }) => `${bar}.${beat} ${chord?.name}`,
  );

// Passing sevenths of cadences, as a course of harmony has them: V 8–7 I.
describe('a seventh that comes in over a chord', () => {
  it('makes a chord of its own where it is on its way to the next', () => {
    expect(named('C3h G3h C3w', 'E4h D4h E4w', 'G4h B3h C4w', 'C5h G4 F4 E4w')).toEqual([
      '1.1 C',
      '1.3 G',
      '1.4 G7',
      '2.1 C',
    ]);
  });

  it('is part of its chord where it sounds from the beginning', () => {
    expect(named('C3h G3h C3w', 'E4h D4h E4w', 'G4h B3h C4w', 'C5h F4h E4w')).toEqual([
      '1.1 C',
      '1.3 G7',
      '2.1 C',
    ]);
  });
});
