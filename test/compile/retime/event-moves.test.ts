import { describe, expect, it } from 'vitest';
import { EventMoves } from '../../../src/compile/retime/event-moves.js';

describe('moves of events', () => {
  it('are those that were set, to tick 0 too; all others stay', () => {
    const moves = new EventMoves(3);
    expect(moves.any).toBe(false);
    moves.set(1, 0);
    expect(moves.any).toBe(true);
    expect([-1, 0, 1, 2, 3].map((event) => moves.get(event))).toEqual([
      undefined,
      undefined,
      0,
      undefined,
      undefined,
    ]);
    expect([0, 1].map((event) => moves.has(event))).toEqual([false, true]);
  });
});
