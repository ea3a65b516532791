import { describe, expect, it } from 'vitest';
import { lineOf, notateLine, type Played } from './scores.js';
import { barsOf } from './written.js';

// Common practice, no source.
describe('two voices on a staff', () => {
  it('a held note over a moving line', () => {
    const { mei } = notateLine([[0, 4, 76], ...lineOf([1, 1, 1, 1], [60, 62, 64, 65])]);
    expect(barsOf(mei)).toEqual(['e5:1 | c4:4 d4:4 e4:4 f4:4']);
  });

  it('a held bass below an arpeggio', () => {
    const { mei } = notateLine([[0, 4, 48], ...lineOf([1, 1, 1], [60, 64, 67], 0.95, 1)]);
    expect(barsOf(mei)).toEqual(['r:4 c4:4 e4:4 g4:4 | c3:1']);
  });

  it('where every note is held to the end, the others end at the next', () => {
    const held = lineOf([1, 1, 1, 1], [48, 60, 64, 67]).map(
      ([onset, , pitch]): Played => [onset, 4 - onset, pitch],
    );
    expect(barsOf(notateLine(held).mei)).toEqual(['r:4 c4:4 e4:4 g4:4 | c3:1']);
  });

  it('held over the bar line, and one voice again afterwards', () => {
    const { mei } = notateLine([[2, 4, 76], ...lineOf([1, 1, 1, 1], [60, 62, 64, 65], 0.95, 2), [6, 2, 67]]);
    expect(barsOf(mei)).toEqual(['s:2 e5:2~ | r:2 c4:4 d4:4', 'e5:2 s:2 | e4:4 f4:4 g4:2']);
  });

  it('less than a quarter behind the next onset is an overlap, not a voice', () => {
    const { mei } = notateLine([
      [0, 1.4, 60],
      [1, 3, 62],
    ]);
    expect(barsOf(mei)).toEqual(['c4:4 d4:4~ d4:2']);
  });

  it('both have their rests where both have more than one note', () => {
    const { mei } = notateLine([
      [0, 2, 76],
      [1, 1, 64],
      [2, 2, 77],
      [3, 1, 65],
    ]);
    expect(barsOf(mei)).toEqual(['e5:2 f5:2 | r:4 e4:4 r:4 f4:4']);
  });
});
