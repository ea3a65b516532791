import { describe, expect, it } from 'vitest';
import { fitting } from '../../support/decided.js';

describe('leap', () => {
  it('counts semitones up or down; the first note leaps from nowhere', () => {
    const notes = [60, 67, 60, 61].map((pitch, index) => ({
      tick: index * 500,
      end: index * 500 + 100,
      pitch,
    }));
    expect(fitting('{leap: {from: 7, to: 12}}', notes)).toEqual([false, true, true, false]);
    expect(fitting('{leap: {to: 12}}', notes)).toEqual([false, true, true, true]);
    expect(fitting('{not: {leap: {to: 12}}}', notes)).toEqual([true, false, false, false]);
  });
});
