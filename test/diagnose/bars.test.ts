import { describe, expect, it } from 'vitest';
import { sayBars, sayBarsUpTo } from '../../src/diagnose/bars.js';

const bars = [
  { from: 3, to: 3 },
  { from: 5, to: 7 },
  { from: 9, to: 9 },
];

describe('bars in words', () => {
  it('are one, a range, or several', () => {
    expect(sayBars(bars.slice(0, 1))).toBe('bar 3');
    expect(sayBars(bars.slice(1, 2))).toBe('bars 5–7');
    expect(sayBars(bars)).toBe('bars 3, 5–7, 9');
  });

  it('are counted where there are too many', () => {
    expect(sayBarsUpTo(3, bars)).toBe('bars 3, 5–7, 9');
    expect(sayBarsUpTo(1, bars)).toBe('bars 3 and 2 more places');
    expect(sayBarsUpTo(2, bars)).toBe('bars 3, 5–7 and 1 more place');
  });
});
