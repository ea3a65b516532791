import { describe, expect, it } from 'vitest';
import { pairsOf } from '../../src/prove/pairs.js';
import { fileOf, off, on } from './events.js';

const track = (...events: Parameters<typeof fileOf>[0]) => {
  const [first] = fileOf(events).tracks;
  if (!first) throw new Error('no track');
  return first;
};

describe('pairsOf', () => {
  it('ends the earliest open note of a key and channel', () => {
    const { offOf, strays } = pairsOf(
      track(on(0, 60), on(1, 60), on(2, 60, 80, 1), off(3, 60), off(4, 60, 1), off(5, 60), off(6, 60)),
      () => true,
    );
    expect([...offOf]).toEqual([
      [0, 3],
      [2, 4],
      [1, 5],
    ]);
    expect(strays).toEqual([6]);
  });

  it('passes over what is not picked', () => {
    const { offOf, strays } = pairsOf(track(on(0, 60), off(1, 60), off(2, 60)), (_, index) => index !== 1);
    expect([...offOf]).toEqual([[0, 2]]);
    expect(strays).toEqual([]);
  });
});
