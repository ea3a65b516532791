import { describe, expect, it } from 'vitest';
import { filterOf, kWeighting, loudnessMeter } from '../../../src/sound/signal/index.js';
import { some } from '../../support/draws.js';
import { sine } from './support.js';

function measured(
  parts: readonly (readonly [level: number, seconds: number])[],
  rate: number,
  channels = 2,
  hertz = 1000,
) {
  const meter = loudnessMeter(rate, channels);
  for (const [level, seconds] of parts) {
    const samples = sine(hertz, level, seconds, rate);
    // In uneven pieces, as they come from a file.
    for (let at = 0; at < samples.length; at += 12_345) {
      const piece = samples.subarray(at, at + 12_345);
      meter.push(Array.from({ length: channels }, () => piece));
    }
  }
  return meter;
}

describe('K-weighting', () => {
  it('has the coefficients that ITU-R BS.1770-4 prints for 48 kHz (annex 1, tables 1 and 2, from memory)', () => {
    const [shelf, highPass] = kWeighting(48_000);
    const close = (found: readonly number[], printed: readonly number[]) =>
      printed.forEach((value, index) => {
        expect(found[index]).toBeCloseTo(value, 8);
      });
    close(shelf.b, [1.53512485958697, -2.69169618940638, 1.19839281085285]);
    close(shelf.a, [-1.69065929318241, 0.73248077421585]);
    close(highPass.b, [1, -2, 1]);
    close(highPass.a, [-1.99004745483398, 0.99007225036621]);
  });

  it.each([44_100, 96_000, 192_000])('raises 1 kHz at %i Hz as at 48 kHz', (rate) => {
    const gain = (at: number) => {
      const out = filterOf(kWeighting(at))(sine(1000, 0, 1, at)).subarray(at / 2);
      return 10 * Math.log10((2 * out.reduce((sum, value) => sum + value * value, 0)) / out.length);
    };
    // The bilinear transform bends the shelf a little with the rate.
    expect(Math.abs(gain(rate) - gain(48_000))).toBeLessThan(0.05);
  });
});

describe('loudness', () => {
  it('of a 997 Hz sine of full scale in one channel is −3.01 LUFS (ITU-R BS.1770-4, annex 1, from memory)', () => {
    expect(Math.abs(measured([[0, 5]], 48_000, 1, 997).integrated() + 3.01)).toBeLessThan(0.02);
  });

  // EBU Tech 3341, table 1, "minimum requirements", cases 1 to 5: 1 kHz in both channels, tolerance 0.1 LU (from memory).
  const cases = [
    { parts: [[-23, 20]], is: -23 },
    { parts: [[-33, 20]], is: -33 },
    {
      parts: [
        [-36, 10],
        [-23, 60],
        [-36, 10],
      ],
      is: -23,
    },
    {
      parts: [
        [-72, 10],
        [-36, 10],
        [-23, 60],
        [-36, 10],
        [-72, 10],
      ],
      is: -23,
    },
    {
      parts: [
        [-26, 20],
        [-20, 20.1],
        [-26, 20],
      ],
      is: -23,
    },
  ] as const;
  it.each(some(cases))('gated, $parts comes to $is LUFS', ({ parts, is }) => {
    expect(Math.abs(measured(parts, 48_000).integrated() - is)).toBeLessThan(0.1);
  });

  it.each([44_100, 48_000, 96_000, 192_000])('does not depend on the rate (%i Hz)', (rate) => {
    const meter = measured([[-23, 3]], rate);
    expect(Math.abs(meter.integrated() + 23)).toBeLessThan(0.05);
    expect(Math.abs((meter.momentary().at(-1) ?? 0) + 23)).toBeLessThan(0.05);
  });

  it('is told each tenth of a second, from 0.4 s on', () => {
    expect(measured([[-23, 1.05]], 48_000).momentary()).toHaveLength(7);
    expect(measured([[-23, 0.39]], 48_000).momentary()).toEqual([]);
  });

  it('of silence is endless below', () => {
    const meter = measured([[Number.NEGATIVE_INFINITY, 2]], 48_000);
    expect(meter.integrated()).toBe(Number.NEGATIVE_INFINITY);
    expect(meter.momentary().every((value) => value === Number.NEGATIVE_INFINITY)).toBe(true);
  });
});
