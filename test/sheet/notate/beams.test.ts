import { describe, expect, it } from 'vitest';
import { clockWith, lineOf, notateLine } from './scores.js';
import { barsOf } from './written.js';

// Common practice, no source.
describe('beams', () => {
  it('hold one beat', () => {
    const { mei } = notateLine(lineOf([0.5, 0.5, 0.5, 0.5, 1, 1], [60]));
    expect(barsOf(mei)).toEqual(['{c4:8 c4:8} {c4:8 c4:8} c4:4 c4:4']);
  });

  it('hold a dotted beat', () => {
    const { mei } = notateLine(lineOf(Array(6).fill(0.5), [60]), { clock: clockWith([[0, 6, 8]]) });
    expect(barsOf(mei)).toEqual(['{c4:8 c4:8 c4:8} {c4:8 c4:8 c4:8}']);
  });

  it('bridge a rest, but begin and end with a note', () => {
    const { mei } = notateLine([
      [0, 0.25, 60],
      [0.75, 0.25, 62],
      [1.25, 0.25, 64],
      [1.5, 0.25, 65],
      [2, 2, 67],
    ]);
    expect(barsOf(mei)).toEqual(['{c4:16 r:16 r:16 d4:16} r:16 {e4:16 f4:16} r:16 g4:2']);
  });

  it('a single eighth has a flag', () => {
    const { mei } = notateLine(lineOf([1.5, 0.5, 2], [60]));
    expect(barsOf(mei)).toEqual(['c4:4. c4:8 c4:2']);
  });
});
