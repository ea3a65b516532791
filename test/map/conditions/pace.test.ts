import { describe, expect, it } from 'vitest';
import { fitting } from '../../support/decided.js';

describe('pace', () => {
  it('is measured to the next onset; the last note has its held time', () => {
    const notes = [
      { tick: 0, end: 50, pitch: 60 },
      { tick: 100, end: 150, pitch: 60 },
      { tick: 400, end: 480, pitch: 60 },
    ];
    expect(fitting('{pace: {below: 101ms}}', notes)).toEqual([true, false, true]);
    expect(fitting('{pace: {from: 300ms}}', notes)).toEqual([false, true, false]);
  });

  it('is that of the onset for every note of a chord', () => {
    const chord = [
      { tick: 0, end: 50, pitch: 60 },
      { tick: 10, end: 60, pitch: 64 },
      { tick: 110, end: 150, pitch: 60 },
    ];
    expect(fitting('{pace: {from: 110ms, below: 111ms}}', chord)).toEqual([true, true, false]);
  });
});
