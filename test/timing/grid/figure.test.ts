import { describe, expect, it } from 'vitest';
import { figureOf } from '../../../src/timing/grid/figure.js';

const name = (parts: number, ...places: number[]) => {
  const { figure, parts: coarsest } = figureOf(0, places, parts);
  return [figure, coarsest];
};

describe('figureOf', () => {
  it('takes the coarsest subdivision that holds the places', () => {
    expect(name(4, 0)).toEqual(['beat', 1]);
    expect(name(4, 0, 2)).toEqual(['eighths', 2]);
    expect(name(6, 2, 4)).toEqual(['triplets', 3]);
    expect(name(6, 0, 3)).toEqual(['eighths', 2]);
    expect(name(6, 0, 1)).toEqual(['sextuplets', 6]);
    expect(name(8, 0, 2, 4)).toEqual(['sixteenths', 4]);
    expect(name(8, 7)).toEqual(['thirty-seconds', 8]);
    expect(name(12, 0, 1)).toEqual(['finer', 12]);
    expect(name(12, 0, 4, 8)).toEqual(['triplets', 3]);
  });

  it('knows dotted figures: 3 + 1 and 1 + 3, struck or tied over', () => {
    expect(name(4, 0, 3)).toEqual(['dotted', 4]);
    expect(name(4, 0, 1)).toEqual(['dotted', 4]);
    expect(name(8, 6)).toEqual(['dotted', 4]);
    expect(name(4, 1, 3)).toEqual(['sixteenths', 4]);
    expect(name(4, 0, 1, 3)).toEqual(['sixteenths', 4]);
  });
});
