import { describe, expect, it } from 'vitest';
import { formatBars, formatBarsUpTo } from '../../src/midi/bar-range.js';

const bars = [
  { from: 3, to: 3 },
  { from: 5, to: 7 },
  { from: 9, to: 9 },
];

describe('bars in words', () => {
  it('are one, a range, or several', () => {
    expect(formatBars(bars.slice(0, 1))).toBe('bar 3');
    expect(formatBars(bars.slice(1, 2))).toBe('bars 5–7');
    expect(formatBars(bars)).toBe('bars 3, 5–7, 9');
  });

  it('are counted where there are too many', () => {
    expect(formatBarsUpTo(3, bars)).toBe('bars 3, 5–7, 9');
    expect(formatBarsUpTo(1, bars)).toBe('bars 3 and 2 more places');
    expect(formatBarsUpTo(2, bars)).toBe('bars 3, 5–7 and 1 more place');
  });
});
