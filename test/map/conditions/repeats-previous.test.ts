import { describe, expect, it } from 'vitest';
import { fitting } from '../../support/decided.js';

describe('repeats-previous', () => {
  it('compares with the top note of the previous onset', () => {
    const notes = [
      { tick: 0, end: 100, pitch: 60 },
      { tick: 0, end: 100, pitch: 64 },
      { tick: 500, end: 600, pitch: 64 },
      { tick: 900, end: 950, pitch: 60 },
    ];
    expect(fitting('{repeats-previous: true}', notes)).toEqual([false, false, true, false]);
    expect(fitting('{repeats-previous: false}', notes)).toEqual([true, true, false, true]);
  });
});
