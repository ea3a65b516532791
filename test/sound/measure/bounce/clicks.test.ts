import { describe, expect, it } from 'vitest';
import { findClicks } from '../../../../src/sound/measure/bounce/clicks.js';
import { clickTrack, probePlan } from '../../../../src/sound/measure/index.js';
import { clickSamples } from '../../../../src/sound/measure/plan/click.js';
import { openWav } from '../../../../src/sound/signal/index.js';
import { noiseSource } from '../../signal/support.js';
import { libraryOf, short } from '../library.js';

const rate = 48_000;

/** Clicks at times that may lie between samples, moved there by their phase in the frequency domain of the sweep itself. */
function withClicks(times: readonly number[], seconds: number, sampleRate: number, gain = 1): Float32Array {
  const sound = new Float32Array(seconds * sampleRate);
  // Sampled eight times as finely, and picked from there.
  const fine = clickSamples(sampleRate * 8);
  const middle = (fine.length - 1) / 2;
  for (const time of times) {
    const at = time * sampleRate;
    for (let index = Math.ceil(at - middle / 8); index <= at + middle / 8; index++)
      sound[index] = (sound[index] ?? 0) + gain * (fine[Math.round((index - at) * 8) + middle] ?? 0);
  }
  return sound;
}

describe('finding clicks', () => {
  it.each([44_100, 48_000, 96_000, 192_000])(
    'finds them to a fraction of a sample at %i Hz',
    (sampleRate) => {
      const times = [0.3, 0.7123, 1.4 + 0.25 / sampleRate];
      const found = findClicks(withClicks(times, 2, sampleRate), sampleRate);
      expect(found).toHaveLength(3);
      found.forEach(({ at }, index) => {
        expect(Math.abs(at / sampleRate - (times[index] ?? 0))).toBeLessThan(5e-6);
      });
    },
  );

  it('finds them in noise, turned over and soft', () => {
    const next = noiseSource(5);
    const noisy = withClicks([0.5, 1.1], 2, rate, -0.1).map((value) => value + 0.003 * next());
    const found = findClicks(noisy, rate);
    expect(found).toHaveLength(2);
    expect(Math.abs((found[0]?.at ?? 0) / rate - 0.5)).toBeLessThan(2e-5);
  });

  it('finds none in noise, in tones and in silence', () => {
    const next = noiseSource(6);
    const noise = Float32Array.from({ length: 2 * rate }, () => 0.3 * next());
    const tone = Float32Array.from({ length: 2 * rate }, (_, at) =>
      at > rate ? Math.sin(at * 0.3) * Math.exp(-(at - rate) / 900) : 0,
    );
    expect(
      [noise, tone, new Float32Array(rate), new Float32Array(10)].map(
        (sound) => findClicks(sound, rate).length,
      ),
    ).toEqual([0, 0, 0, 0]);
  });
});

describe('the click track', () => {
  it('has its clicks where the plan says, and lasts as long', async () => {
    const plan = probePlan(libraryOf([short('hit')]), { quick: true });
    async function* pieces() {
      yield* clickTrack(plan);
    }
    const wav = await openWav(pieces());
    expect(wav.format).toMatchObject({ sampleRate: rate, channels: 1, bits: 16, encoding: 'integer' });
    const sound = new Float32Array(wav.frames ?? 0);
    for await (const { from, channels } of wav.blocks()) sound.set(channels[0] ?? [], from);
    expect(sound.length / rate).toBeCloseTo(plan.seconds, 4);
    const found = findClicks(sound, rate).map(({ at }) => at / rate);
    const planned = [...plan.clicks.start, ...plan.clicks.end];
    expect(found).toHaveLength(6);
    planned.forEach((time, index) => {
      expect(Math.abs((found[index] ?? 0) - time)).toBeLessThan(1e-6);
    });
    // Not louder than −12 dB of full scale.
    expect(sound.reduce((peak, value) => Math.max(peak, Math.abs(value)), 0)).toBeLessThan(0.2512);
  });
});
