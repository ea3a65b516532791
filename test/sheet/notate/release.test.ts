import { describe, expect, it } from 'vitest';
import { lineOf, notateLine } from './scores.js';
import { barsOf } from './written.js';

// Common practice, no source.
describe('how long notes are written', () => {
  it('a note held for three fifths of the way is written up to the next onset', () => {
    expect(barsOf(notateLine(lineOf([2, 2, 4], [60], 0.62)).mei)).toEqual(['c4:2 c4:2', 'c4:2. r:4']);
  });

  it('one held shorter is followed by a rest', () => {
    expect(barsOf(notateLine(lineOf([2, 2], [60], 0.45)).mei)).toEqual(['c4:4 r:4 c4:4 r:4']);
  });

  it.each([0.1, 0.3, 0.9, 1, 1.2])(
    'neighbours on their beats, held for %d of a beat, are quarters',
    (held) => {
      const { mei } = notateLine([...lineOf([1, 1, 1], [60, 62], held), [3, 1, 64]]);
      expect(barsOf(mei)).toEqual(['c4:4 d4:4 c4:4 e4:4']);
    },
  );

  it('staccato eighths are eighths', () => {
    const { mei } = notateLine(lineOf([0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5], [60], 0.2));
    expect(barsOf(mei)).toEqual([Array(4).fill('{c4:8 c4:8}').join(' ')]);
  });

  it('a stab before a rest has the shortest value of its beat', () => {
    const { mei } = notateLine([
      [0, 0.1, 60],
      [2.5, 0.1, 62],
    ]);
    expect(barsOf(mei)).toEqual(['c4:4 r:4 r:8 d4:8 r:4']);
  });

  it.each([1.02, 1.2, 1.4])('legato notes held for %d beats end at the next onset', (held) => {
    const { mei } = notateLine([...lineOf([1, 1, 1], [60, 62], held), [3, 1, 64]]);
    expect(barsOf(mei)).toEqual(['c4:4 d4:4 c4:4 e4:4']);
  });

  it('a note without length is written', () => {
    expect(barsOf(notateLine([[0, 0, 60]]).mei)).toEqual(['c4:4 r:4 r:2']);
  });

  it('nothing sounds on behind the last bar', () => {
    const { mei, bars } = notateLine([[2, 20, 60]], { endTick: 4 * 480 });
    expect(barsOf(mei)).toEqual(['r:2 c4:2']);
    expect(bars).toHaveLength(1);
  });
});
