import { expect, it } from 'vitest';
import { fitting } from '../../support/decided.js';

it('repeats-next looks at the top note of the next onset, and never holds for the last', () => {
  const notes = [
    { tick: 0, end: 100, pitch: 60 },
    { tick: 500, end: 600, pitch: 60 },
    { tick: 1000, end: 1200, pitch: 60 },
    { tick: 1000, end: 1200, pitch: 67 },
    { tick: 1500, end: 1600, pitch: 67 },
  ];
  expect(fitting('{repeats-next: true}', notes)).toEqual([true, false, false, true, false]);
  expect(fitting('{repeats-next: false}', notes)).toEqual([false, true, true, false, true]);
});
