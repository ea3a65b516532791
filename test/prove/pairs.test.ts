import { describe, expect, it } from 'vitest';
import { pairsOf } from '../../src/prove/pairs.js';
import { columnsOf, off, on } from './events.js';

describe('pairsOf', () => {
  it('ends the earliest open note of a key and channel', () => {
    const { partner, strays } = pairsOf(
      columnsOf([on(0, 60), on(1, 60), on(2, 60, 80, 1), off(3, 60), off(4, 60, 1), off(5, 60), off(6, 60)]),
      () => true,
    );
    // The end of the track comes last.
    expect([...partner]).toEqual([3, 5, 4, 0, 2, 1, -1, -1]);
    expect(strays).toEqual([6]);
  });

  it('passes over what is not picked', () => {
    const { partner, strays } = pairsOf(
      columnsOf([on(0, 60), off(1, 60), off(2, 60)]),
      (event) => event !== 1,
    );
    expect([...partner]).toEqual([2, -1, 0, -1]);
    expect(strays).toEqual([]);
  });
});
