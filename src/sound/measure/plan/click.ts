import { wavWriter } from '../../signal/index.js';
import type { ProbePlan } from './types.js';

/** Unit: seconds. */
export const clickLength = 0.02;
const sweep = { from: 1000, to: 8000 } as const;
/** Of full scale: −12 dB, so that it startles nobody. */
const peak = 0.25;

/**
 * The click: a short sweep from 1 to 8 kHz under a Hann window. A sweep is found by comparing, to a fraction of a sample,
 * also where noise and a room lie over it. Its time is that of its middle.
 */
export function clickSamples(sampleRate: number): Float64Array {
  const length = 2 * Math.floor((clickLength * sampleRate) / 2) + 1;
  const middle = (length - 1) / 2;
  return Float64Array.from({ length }, (_, index) => {
    const time = (index - middle) / sampleRate;
    const share = 0.5 + time / clickLength;
    const phase =
      2 *
      Math.PI *
      (((sweep.from + sweep.to) / 2) * time + ((sweep.to - sweep.from) / (2 * clickLength)) * time * time);
    return peak * Math.sin(Math.PI * Math.max(0, Math.min(1, share))) ** 2 * Math.cos(phase);
  });
}

const sampleRate = 48_000;

/** The sound that is laid on bar 1 beside the probe, as the pieces of a WAV file: mono, 16 bits, 48 kHz. */
export function* clickTrack(plan: ProbePlan): Generator<Uint8Array> {
  const frames = Math.round(plan.seconds * sampleRate);
  const writer = wavWriter({ sampleRate, channels: 1, bits: 16 }, frames);
  const click = clickSamples(sampleRate);
  const starts = [...plan.clicks.start, ...plan.clicks.end].map(
    (at) => Math.round(at * sampleRate) - (click.length - 1) / 2,
  );
  yield writer.header;
  for (let from = 0; from < frames; from += sampleRate) {
    const samples = new Float64Array(Math.min(sampleRate, frames - from));
    for (const start of starts)
      for (let index = 0; index < click.length; index++) {
        const at = start + index - from;
        if (at >= 0 && at < samples.length) samples[at] = click[index] ?? 0;
      }
    yield writer.frames([samples]);
  }
  if (writer.end.length > 0) yield writer.end;
}
