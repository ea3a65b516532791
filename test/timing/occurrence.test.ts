import { expect, it } from 'vitest';
import { occurrences } from '../../src/timing/occurrence.js';

it('counts notes of one pitch at one tick', () => {
  const note = (tick: number, pitch: number) => ({ tick, pitch });
  expect(occurrences([note(0, 60), note(0, 64), note(0, 60), note(10, 60), note(0, 60)])).toEqual([
    0, 0, 1, 0, 2,
  ]);
  // 128 pitches to a tick
  expect(occurrences([note(0, 127), note(1, 0), note(1, 0)])).toEqual([0, 0, 1]);
});
