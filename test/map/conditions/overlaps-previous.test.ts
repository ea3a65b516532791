import { describe, expect, it } from 'vitest';
import { fitting } from '../../support/decided.js';

const notes = [
  { tick: 0, end: 489, pitch: 60 },
  { tick: 500, end: 990, pitch: 62 },
  { tick: 1000, end: 1600, pitch: 64 },
  { tick: 1500, end: 2000, pitch: 65 },
];

describe('overlaps-previous', () => {
  it('holds for the note after one that overlaps, never for the first', () => {
    expect(fitting('{overlaps-previous: true}', notes)).toEqual([false, false, true, true]);
    expect(fitting('{overlaps-previous: false}', notes)).toEqual([true, true, false, false]);
  });
});
