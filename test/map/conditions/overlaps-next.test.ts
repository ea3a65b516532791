import { describe, expect, it } from 'vitest';
import { fitting } from '../../support/decided.js';

const notes = [
  { tick: 0, end: 489, pitch: 60 },
  { tick: 500, end: 990, pitch: 62 },
  { tick: 1000, end: 1600, pitch: 64 },
  { tick: 1500, end: 2000, pitch: 65 },
];

describe('overlaps-next', () => {
  it('forgives 10 ms, and never holds for the last note', () => {
    expect(fitting('{overlaps-next: true}', notes)).toEqual([false, true, true, false]);
    expect(fitting('{overlaps-next: false}', notes)).toEqual([true, false, false, true]);
  });
});
