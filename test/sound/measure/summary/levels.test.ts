import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { levelAt, markOffset, marksOf, rising } from '../../../../src/sound/measure/summary/marks.js';
import { type Cell, levelsByValue } from '../../../../src/sound/measure/summary/polish.js';
import { draws } from '../../../support/draws.js';

/** The General MIDI law. */
const law = (value: number) => 40 * Math.log10(value / 127);
const curve = [8, 20, 32, 43, 55, 65, 73, 81, 90, 105, 116, 127].map((value) => ({
  value,
  dB: law(value) - 20,
}));

describe('levels by value', () => {
  const rows = ['a', 'b', 'c', 'd'];
  const full = rows.flatMap((row, index) =>
    [20, 55, 90, 127].map((value): Cell => ({ row, value, dB: law(value) + 3 * index })),
  );

  it('are those of the law, over circumstances of any loudness, with cells missing and one wrong', () => {
    const holes = full.filter(
      ({ row, value }) => !(row === 'b' && value === 20) && !(row === 'c' && value < 60),
    );
    const wrong = holes.map((cell) =>
      cell.row === 'd' && cell.value === 90 ? { ...cell, dB: cell.dB + 12 } : cell,
    );
    const found = levelsByValue(wrong);
    const top = found.at(-1)?.dB ?? 0;
    for (const { value, dB } of found) expect(dB - top).toBeCloseTo(law(value), 6);
    expect(top).toBeCloseTo(4.5, 6);
  });

  it('takes values that one circumstance alone has, by those that it shares', () => {
    const alone = [8, 32, 65, 105, 127].map((value): Cell => ({ row: 'e', value, dB: law(value) - 30 }));
    const found = levelsByValue([...full, ...alone]);
    const top = found.at(-1)?.dB ?? 0;
    expect(found.map(({ value }) => value)).toEqual([8, 20, 32, 55, 65, 90, 105, 127]);
    for (const { value, dB } of found) expect(dB - top).toBeCloseTo(law(value), 6);
  });

  it('of nothing are none', () => expect(levelsByValue([])).toEqual([]));
});

describe('marks', () => {
  it('on the law itself are the project’s own values, each 15 steps above the one before', () => {
    const found = marksOf(curve, undefined);
    expect(found?.marks.map(({ mark, value }) => [mark, value])).toEqual([
      ['pp', 30],
      ['p', 45],
      ['mp', 60],
      ['mf', 75],
      ['f', 90],
      ['ff', 105],
    ]);
    expect(found?.marks.every(({ isReached }) => isReached)).toBe(true);
    expect(found?.referenceLevel).toBeCloseTo(law(75) - 20, 1);
  });

  it('mean the same in every library: as far from mf, whatever its controller does', () => {
    // A library whose controller moves a straight 40 dB, and one that bends.
    const straight = curve.map(({ value }) => ({ value, dB: (40 * value) / 127 - 50 }));
    for (const points of [curve, straight]) {
      const found = marksOf(points, undefined);
      for (const { mark, dB } of found?.marks ?? [])
        expect(Math.abs(dB - (found?.referenceLevel ?? 0) - markOffset(mark))).toBeLessThan(0.6);
    }
  });

  it('keep mf where the map has it, and the map’s other marks', () => {
    const found = marksOf(
      curve,
      new Map([
        ['mf', 60],
        ['fff', 120],
      ]),
    );
    expect(found?.referenceLevel).toBeCloseTo(law(60) - 20, 1);
    expect(found?.marks.map(({ mark }) => mark)).toEqual(['pp', 'p', 'mp', 'mf', 'f', 'ff', 'fff']);
    expect(found?.marks.find(({ mark }) => mark === 'mf')?.value).toBe(60);
  });

  it('that the library does not reach are told, with the nearest value', () => {
    const narrow = curve.map(({ value }) => ({ value, dB: (8 * value) / 127 }));
    const found = marksOf(narrow, new Map([['mf', 64]]));
    const ofMark = (mark: string) => found?.marks.find((one) => one.mark === mark);
    expect(ofMark('pp')).toMatchObject({ value: 1, isReached: false });
    expect(ofMark('ff')).toMatchObject({ value: 127, isReached: false });
    expect(ofMark('mf')?.isReached).toBe(true);
  });

  it('are none where the controller does nothing', () => {
    expect(
      marksOf(
        curve.map(({ value }) => ({ value, dB: value / 100 })),
        undefined,
      ),
    ).toBeUndefined();
    expect(marksOf([], undefined)).toBeUndefined();
  });

  it('the curve never falls, and is as near as can be', () => {
    const any = fc.array(fc.double({ min: -60, max: 0, noNaN: true }), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(any, (levels) => {
        const points = levels.map((dB, index) => ({ value: index * 10 + 1, dB }));
        const found = rising(points);
        expect(found.map(({ value }) => value)).toEqual(points.map(({ value }) => value));
        found.forEach(({ dB }, index) => {
          expect(dB).toBeGreaterThanOrEqual((found[index - 1]?.dB ?? -Infinity) - 1e-9);
        });
        const sum = (all: readonly { dB: number }[]) => all.reduce((total, { dB }) => total + dB, 0);
        expect(sum(found)).toBeCloseTo(sum(points), 6);
      }),
      { seed: 9, numRuns: draws(200) },
    );
    expect(
      levelAt(
        [
          { value: 10, dB: -20 },
          { value: 100, dB: 0 },
        ],
        31.62,
      ),
    ).toBeCloseTo(-10, 2);
  });
});
