import { describe, expect, it } from 'vitest';
import { isExact } from '../../src/timing/exact.js';

describe('isExact', () => {
  it('takes sixteenths and triplet eighths, within a tick', () => {
    // 480 to the quarter: a sixteenth is 120, a triplet eighth 160
    for (const tick of [0, 1, 119, 120, 121, 160, 161, 239, 240, 320, 1919])
      expect(isExact(tick, 1920)).toBe(true);
    for (const tick of [2, 118, 122, 158, 200, 1917]) expect(isExact(tick, 1920)).toBe(false);
  });

  it('takes the tick nearest to a place that falls between two', () => {
    // 100 to the quarter: the triplet eighth is 33 1/3
    expect(isExact(33, 400)).toBe(true);
    expect(isExact(67, 400)).toBe(true);
  });

  it('takes no tick more where ticks are coarse', () => {
    // 24 to the quarter: 6 and 8
    const exact = Array.from({ length: 24 }, (_, tick) => tick).filter((tick) => isExact(tick, 96));
    expect(exact).toEqual([0, 6, 8, 12, 16, 18]);
  });
});
