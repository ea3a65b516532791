import { describe, expect, it } from 'vitest';
import { curveThrough } from '../../src/dynamics/curve.js';
import { levelOfMark } from '../../src/dynamics/levels.js';
import { dynamicWord, hairpinWords, type PlacedWord, targetsOfMarks } from '../../src/dynamics/marks.js';

const words = (...placed: readonly (readonly [number, string])[]): PlacedWord[] =>
  placed.map(([tick, name]) => {
    const word = dynamicWord(name);
    if (!word) throw new Error(`no word ${name}`);
    return { ...word, tick };
  });

const setting = { startTick: 0, endTick: 4000, level: 4 };
const level = (mark: string) => levelOfMark(mark) ?? Number.NaN;
const levels = (placed: readonly PlacedWord[], ...ticks: readonly number[]) =>
  ticks.map(curveThrough(targetsOfMarks(placed, setting)).valueAt);

describe('dynamicWord', () => {
  it('knows the marks of the scale, crescendo and diminuendo', () => {
    expect(dynamicWord(' MF ')).toEqual({ kind: 'level', level: 4 });
    for (const name of ['cresc', 'Cresc.', 'crescendo', '<'])
      expect(dynamicWord(name)).toEqual({ kind: 'hairpin', direction: 1 });
    for (const name of ['dim', 'dim.', 'diminuendo', 'decresc.', 'decrescendo', '>'])
      expect(dynamicWord(name)).toEqual({ kind: 'hairpin', direction: -1 });
    for (const name of hairpinWords) expect(dynamicWord(name)?.kind).toBe('hairpin');
    for (const name of ['m', 'legato', '', 'fp', 'constructor']) expect(dynamicWord(name)).toBeUndefined();
  });
});

describe('targetsOfMarks', () => {
  it('holds a level until the next, which is reached at once', () => {
    expect(levels(words([1000, 'p'], [2000, 'ff']), 0, 999, 1000, 1999, 2000, 9000)).toEqual([
      4,
      4,
      level('p'),
      level('p'),
      level('ff'),
      level('ff'),
    ]);
  });

  it('reaches a level gradually from the hairpin before it', () => {
    const placed = words([0, 'p'], [1000, 'cresc'], [2000, 'ff'], [3000, 'dim'], [4000, 'mp']);
    expect(levels(placed, 0, 1000, 2000, 3000, 4000)).toEqual([2, 2, 6, 6, 3]);
    const on = levels(placed, ...Array.from({ length: 11 }, (_, i) => 1000 + 100 * i));
    on.slice(1).forEach((value, i) => {
      expect(value).toBeGreaterThan(on[i] ?? 9);
    });
  });

  it('takes a level and a hairpin at one tick in either order', () => {
    const expected = [2, 6];
    expect(levels(words([1000, 'p'], [1000, 'cresc'], [2000, 'ff']), 1000, 2000)).toEqual(expected);
    expect(levels(words([1000, 'cresc'], [1000, 'p'], [2000, 'ff']), 1000, 2000)).toEqual(expected);
  });

  it('rises by a mark before a sudden piano, and where no level ends the hairpin', () => {
    const placed = words(
      [0, 'mf'],
      [1000, 'cresc'],
      [2000, 'p'],
      [2500, '<'],
      [3000, '>'],
      [3500, 'pp'],
      [3600, '<'],
    );
    expect(levels(placed, 1999.999, 2000, 3000, 3500, 4000)).toEqual([
      expect.closeTo(5, 3),
      2,
      3,
      level('pp'),
      level('p'),
    ]);
  });

  it('does not rise past fff, nor fall past ppp', () => {
    expect(levels(words([0, 'fff'], [1000, 'cresc']), 4000)).toEqual([7]);
    expect(levels(words([0, 'ppp'], [1000, 'dim']), 4000)).toEqual([0]);
  });

  it('takes the last of several levels at one tick, and the level at the start without any', () => {
    expect(levels(words([500, 'p'], [500, 'f']), 499, 500)).toEqual([4, 5]);
    expect(targetsOfMarks([], setting)).toEqual([{ at: 0, level: 4 }]);
  });
});
