import { describe, expect, it } from 'vitest';
import { fitting } from '../../support/decided.js';

describe('velocity', () => {
  it('includes both bounds', () => {
    const notes = [63, 64, 90, 91].map((velocity, index) => ({
      tick: index * 500,
      end: index * 500 + 100,
      pitch: 60,
      velocity,
    }));
    expect(fitting('{velocity: {from: 64, to: 90}}', notes)).toEqual([false, true, true, false]);
    expect(fitting('{velocity: {to: 63}}', notes)).toEqual([true, false, false, false]);
  });
});
