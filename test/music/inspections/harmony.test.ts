import { describe, expect, it } from 'vitest';
import { harmonyOf } from '../../../src/music/harmony/index.js';
import { harmonyJson, harmonyText } from '../../../src/music/inspections/harmony.js';
import { chordsOf, clockFor } from '../harmony/support.js';

const borrowed = chordsOf(
  [
    [48, 55, 64],
    [44, 60, 63],
    [46, 58, 65],
    [48, 55, 64],
  ],
  4,
);

describe('harmony in words', () => {
  it('has a line for each change, beneath its key', () => {
    const text = [
      'Harmony:',
      '  bar.beat  chord  degree  bass  altered',
      '  in C major:',
      '  1.1       C      I       C3',
      '  2.1       A♭     ♭VI     A♭2   ♭3 ♭6',
      '  3.1       B♭5    ♭VII    B♭2   ♭7',
      '  4.1       C      I       C3',
    ].join('\n');
    expect(harmonyText(harmonyOf(borrowed, clockFor(), { per: 'found' }))).toBe(text);
    expect(harmonyText(harmonyOf(borrowed, clockFor(), { per: 'beat' }))).toBe(text);
    expect(harmonyText([])).toBe('');
  });

  it('says halves of beats, and ticks where there are no bars', () => {
    const late = chordsOf(
      [
        [48, 52, 55],
        [43, 50, 59],
      ],
      1.5,
    );
    const found = harmonyOf(late, clockFor(), { per: 'found' });
    expect(harmonyText(found)).toContain('\n  1.2½ ');
    expect(harmonyText(found.map((one) => ({ ...one, bar: null, beat: null })))).toContain('tick 720');
  });

  it('is the same in JSON, spelled', () => {
    const [, second] = harmonyJson(harmonyOf(borrowed, clockFor(), { per: 'found' }));
    expect(second).toEqual({
      bar: 2,
      beat: 1,
      tick: 1920,
      endTick: 3840,
      pitchClasses: ['C', 'E♭', 'A♭'],
      bass: 'A♭2',
      chord: 'A♭',
      root: 'A♭',
      inversion: 0,
      key: 'C major',
      degree: '♭VI',
      altered: ['♭3', '♭6'],
    });
  });
});
