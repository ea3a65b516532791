import { expect, it } from 'vitest';
import { startToSpeakAt } from '../../src/timing/delay.js';
import { frameClock, plainClock } from './clock.js';

const clock = plainClock(480, [
  [0, 120],
  [960, 60],
]);

const quarter = { unit: 'whole', numerator: 1, denominator: 4 } as const;

const at = (...place: Parameters<typeof startToSpeakAt>) => {
  const { ms, tick } = startToSpeakAt(...place);
  return [Math.round(ms * 1e6) / 1e6, tick];
};

it('takes a time off in real time, across a tempo change', () => {
  // 60 bpm, 480 ticks: 12 ticks are 25 ms; before that 24 ticks are 25 ms
  expect(at(960 + 12, { unit: 'ms', ms: 50 }, clock)).toEqual([975, 936]);
  expect(at(1920, { unit: 'ms', ms: 0 }, clock)).toEqual([3000, 1920]);
});

it('takes a fraction of a whole note off in ticks', () => {
  expect(at(960, { unit: 'whole', numerator: 1, denominator: 16 }, clock)).toEqual([875, 840]);
});

it('counts on before the start of the file, at its first tempo', () => {
  expect(at(48, { unit: 'ms', ms: 100 }, clock)).toEqual([-50, -48]);
  expect(at(0, quarter, clock)).toEqual([-500, -480]);
});

it('knows no fractions where a file counts frames', () => {
  expect(at(100, quarter, frameClock)).toEqual([100, 100]);
  expect(at(100, { unit: 'ms', ms: 30 }, frameClock)).toEqual([70, 70]);
});
