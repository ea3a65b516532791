import { expect, it } from 'vitest';
import { markRuns } from '../../../src/music/mechanical/runs.js';

const marked = (values: readonly number[], lookBack: number, least: number) =>
  markRuns(values, lookBack, least);

it('marks runs of one value, the first member too', () => {
  expect(marked([1, 2, 2, 2, 3, 3], 1, 3)).toEqual([false, true, true, true, false, false]);
  expect(marked([], 1, 3)).toEqual([]);
});

it('looks back over several values', () => {
  expect(marked([1, 2, 1, 2, 1], 2, 3)).toEqual([false, true, true, true, true]);
  expect(marked([1, 2, 1, 2, 1], 1, 2)).toEqual([false, false, false, false, false]);
});
