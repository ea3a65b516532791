import { describe, expect, it } from 'vitest';
import { moveFrom } from '../../../../src/sheet/page/client/moves.js';

const starts = [[0, 480, 960], [], [100, 900, 2000]];
const counts = starts.map((of) => of.length);
const move = (part: number, note: number, to: Parameters<typeof moveFrom>[1]) =>
  moveFrom({ part, note }, to, counts, starts);

describe('moving between notes', () => {
  it('goes along a part and stays at its ends', () => {
    expect(move(0, 0, 'next')).toEqual({ part: 0, note: 1 });
    expect(move(0, 2, 'next')).toEqual({ part: 0, note: 2 });
    expect(move(0, 0, 'previous')).toEqual({ part: 0, note: 0 });
    expect(move(2, 2, 'first')).toEqual({ part: 2, note: 0 });
    expect(move(2, 0, 'last')).toEqual({ part: 2, note: 2 });
  });

  it('goes to the note of another part that begins nearest, past empty parts', () => {
    expect(move(0, 2, 'below')).toEqual({ part: 2, note: 1 });
    expect(move(2, 2, 'above')).toEqual({ part: 0, note: 2 });
    expect(move(0, 0, 'above')).toEqual({ part: 0, note: 0 });
    expect(move(2, 0, 'below')).toEqual({ part: 2, note: 0 });
  });
});
