import { expect, it } from 'vitest';
import { stavesBySystem } from '../../../src/sheet/notate/playing.js';

/** A staff with a voice in some bars, and notes that are held through others. */
const staff = (bars: readonly number[], held: readonly number[] = []) => ({
  bars: bars.map((plays) => Array<never[]>(plays).fill([])),
  held: new Set(held),
});

it('a system has the staves that play in it, and those whose notes are held through it', () => {
  const staves = [staff([1, 0, 1, 0]), staff([0, 0, 0, 0], [1]), staff([0, 2, 0, 1])];
  expect(stavesBySystem(staves, [0, 1, 2, 2], 0)).toEqual([
    [0, 1, 2],
    [1, 2],
    [0, 2],
  ]);
});

it('the first system that is drawn has all staves; one in which nobody plays has those before it', () => {
  const staves = [staff([1, 1, 0, 0]), staff([1, 0, 0, 0])];
  expect(stavesBySystem(staves, [0, 1, 2, 3], 1)).toEqual([[0, 1], [0, 1], [0], [0]]);
  expect(stavesBySystem([], [0], 0)).toEqual([[]]);
});
