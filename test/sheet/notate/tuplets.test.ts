import { describe, expect, it } from 'vitest';
import { QUARTER } from '../../../src/sheet/notate/measures.js';
import { tupletsOf } from '../../../src/sheet/notate/tuplets.js';
import { lineOf, notateLine } from './scores.js';
import { barsOf } from './written.js';

const third = 1 / 3;
const sixth = 1 / 6;

// Common practice, no source.
describe('tuplets', () => {
  it.each([
    ['triplets of eighths', [third, third, third, 1, 2], '3:2({c4:8 c4:8 c4:8}) c4:4 c4:2'],
    [
      'a long and a short third',
      [2 * third, third, third, 2 * third, 2],
      '3:2(c4:4 c4:8) 3:2(c4:8 c4:4) c4:2',
    ],
    ['sextuplets', [...Array(6).fill(sixth), 1, 2], '6:4({c4:16 c4:16 c4:16 c4:16 c4:16 c4:16}) c4:4 c4:2'],
    ['one in half a beat', [0.5, sixth, sixth, sixth, 1, 2], '{c4:8 3:2(c4:16 c4:16 c4:16)} c4:4 c4:2'],
    ['quarters over two beats', [2 * third, 2 * third, 2 * third, 2], '3:2(c4:4 c4:4 c4:4) c4:2'],
    ['tied out of the tuplet', [third, third, 4 * third, 2], '3:2({c4:8 c4:8 c4:8~}) c4:4 c4:2'],
    ['tied into the tuplet', [4 * third, third, third, 2], 'c4:4~ 3:2({c4:8 c4:8 c4:8}) c4:2'],
  ])('%s', (_, values, expected) => {
    expect(barsOf(notateLine(lineOf(values, [60])).mei)).toEqual([expected]);
  });

  it('hold rests', () => {
    const { mei } = notateLine([
      [third, third, 60],
      [2 * third, third, 62],
      [1, 3, 64],
    ]);
    expect(barsOf(mei)).toEqual(['3:2(r:8 {c4:8 d4:8}) e4:4~ e4:2']);
  });
});

describe('the tuplets of places in a quarter of 24 parts', () => {
  const inParts = (places: readonly number[]) =>
    tupletsOf(
      places.map((place) => place * (QUARTER / 24)),
      { start: 0, end: QUARTER },
      QUARTER,
    ).map(({ start, end, num, numbase }) => [
      start / (QUARTER / 24),
      end / (QUARTER / 24),
      `${num}:${numbase}`,
    ]);

  it.each([
    ['none for halves of halves', [0, 3, 6, 12, 18], []],
    ['thirds', [0, 8, 16], [[0, 24, '3:2']]],
    ['sixths', [0, 4, 8, 12, 16, 20], [[0, 24, '6:4']]],
    ['sixths and an eighth', [0, 4, 8, 12], [[0, 12, '3:2']]],
    ['sixths and sixteenths', [0, 4, 8, 12, 18], [[0, 12, '3:2']]],
    [
      'twelfths go by halves',
      [0, 2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 22],
      [
        [0, 12, '6:4'],
        [12, 24, '6:4'],
      ],
    ],
  ])('%s', (_, places, expected) => {
    expect(inParts(places)).toEqual(expected);
  });
});
