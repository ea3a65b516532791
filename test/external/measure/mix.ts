import { writeFileSync } from 'node:fs';
import { wavBytes } from '../../../src/sound/signal/index.js';
import { noiseSource } from '../../sound/signal/support.js';
import { rate, samplesOf } from './render.js';

/** A sound that goes into a mix. */
export interface Voice {
  readonly file: string;
  /** Frames that it comes late. */
  readonly delay?: number;
  readonly gain?: number;
  /** Both channels are summed, and put here by the pan law of RP-036. */
  readonly seat?: number;
}

/** Adds sounds, and white noise of so many dB (RMS of each channel, full scale), into a stereo WAV of float or 24 bits. */
export async function mix(
  target: string,
  voices: readonly Voice[],
  { noise, bits = 32 }: { readonly noise?: number; readonly bits?: 24 | 32 } = {},
): Promise<string> {
  const sum: Float32Array[] = [new Float32Array(0), new Float32Array(0)];
  for (const { file, delay = 0, gain = 1, seat } of voices) {
    const sounds = placed(await samplesOf(file), seat);
    sounds.forEach((samples, channel) => {
      const into = longEnough(sum[channel], samples.length + delay);
      for (let at = 0; at < samples.length; at++)
        into[at + delay] = (into[at + delay] ?? 0) + gain * (samples[at] ?? 0);
      sum[channel] = into;
    });
  }
  const amount = noise === undefined ? 0 : 10 ** (noise / 20) * Math.sqrt(3);
  if (amount > 0)
    sum.forEach((samples, channel) => {
      const next = noiseSource(99 + channel);
      for (let at = 0; at < samples.length; at++) samples[at] = (samples[at] ?? 0) + amount * next();
    });
  writeFileSync(target, wavBytes({ sampleRate: rate, bits }, sum));
  return target;
}

function placed([left, right]: readonly Float32Array[], seat: number | undefined): readonly Float32Array[] {
  if (!left) return [];
  const other = right ?? left;
  if (seat === undefined) return [left, other];
  const angle = (Math.PI * (seat + 1)) / 4;
  const mono = left.map((value, at) => value + (other[at] ?? 0));
  return [mono.map((value) => Math.cos(angle) * value), mono.map((value) => Math.sin(angle) * value)];
}

function longEnough(samples: Float32Array | undefined, length: number): Float32Array {
  if (samples && samples.length >= length) return samples;
  const longer = new Float32Array(length);
  if (samples) longer.set(samples);
  return longer;
}
