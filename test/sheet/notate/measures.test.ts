import { describe, expect, it } from 'vitest';
import { barByBar, measuresOf, tickOf, unitAt, WHOLE } from '../../../src/sheet/notate/measures.js';
import { clockWith, PPQ, type Signature } from './scores.js';

const metersOf = (signatures: readonly Signature[], last: number, ppq = PPQ) =>
  measuresOf(clockWith(signatures, 120, ppq), barByBar({ bar: 1, bars: last })).map(
    ({ meter }) => `${meter.count}/${meter.unit}`,
  );

describe('time signatures from the clock alone', () => {
  it.each([
    ['4/4 where none is given', [], ['4/4', '4/4']],
    [
      'three quarters are not six eighths',
      [
        [0, 3, 4],
        [3, 6, 8],
      ] as Signature[],
      ['3/4', '6/8'],
    ],
    ['halves', [[0, 2, 2]] as Signature[], ['2/2', '2/2']],
    ['sixteenths', [[0, 7, 16]] as Signature[], ['7/16', '7/16']],
    ['a bar cut short by whole beats', [[2, 3, 4]] as Signature[], ['2/4', '3/4']],
    ['a bar cut short within a beat', [[2.5, 3, 4]] as Signature[], ['5/8', '3/4']],
    ['a bar of less than a beat', [[0.25, 3, 4]] as Signature[], ['1/16', '3/4']],
  ])('%s', (_, signatures, expected) => {
    expect(metersOf(signatures, 2)).toEqual(expected);
  });

  it('a bar that no fraction measures is written to the nearest 64th', () => {
    expect(metersOf([[1.01, 3, 4]], 2)).toEqual(['16/64', '3/4']);
  });

  it.each([1, 7, 96, 100, 960])('holds at %d ticks a quarter', (ppq) => {
    expect(metersOf([[0, 3, 4]], 3, ppq)).toEqual(['3/4', '3/4', '3/4']);
  });
});

it('ticks and units of a bar lead to each other', () => {
  const clock = clockWith([[0, 3, 4]]);
  const measures = measuresOf(clock, barByBar({ bar: 1, bars: 3 }));
  for (const measure of measures)
    for (let sixteenth = 0; sixteenth < 12; sixteenth += 1) {
      const tick = measure.tick + sixteenth * (PPQ / 4);
      const place = unitAt(measures, tick);
      expect(place).toBe(measure.start + (sixteenth * WHOLE) / 16);
      expect(tickOf(measure, place)).toBe(tick);
    }
});
