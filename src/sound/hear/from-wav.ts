import type { Wav } from '../signal/index.js';
import type { WavSink } from './wav.js';

/** A stretch that is cut out of a sound fades away within this, so that it does not end in a click. Unit: ms. */
const fadeMs = 20;

/**
 * Passes a sound that there is already on to a sink: one channel on both sides, two as they are. What is no number is
 * silent, and nothing is louder than full scale.
 *
 * @param range what of it is wanted; all, if absent. Unit: ms
 * @returns how long what was passed on is. Unit: frames
 * @throws WavError
 */
export async function passOn(
  wav: Wav,
  sink: WavSink,
  range: { readonly fromMs: number; readonly toMs: number } | undefined,
  onFrame?: (frame: number) => void,
): Promise<number> {
  const { sampleRate } = wav.format;
  const frameAt = (ms: number) => Math.max(0, Math.round((ms * sampleRate) / 1000));
  const from = range ? frameAt(range.fromMs) : 0;
  const to = range ? frameAt(range.toMs) : Number.POSITIVE_INFINITY;
  const fade = frameAt(fadeMs);
  await sink.begin({ sampleRate, format: '16', frames: 0 });
  let passed = 0;
  for await (const { from: begin, channels } of wav.blocks()) {
    const [left = new Float32Array(), right = left] = channels;
    const first = Math.max(0, from - begin);
    const behind = Math.min(left.length, to - begin);
    onFrame?.(begin + left.length);
    if (first < behind) {
      const gain = (index: number) => Math.min(1, (to - begin - index) / fade);
      await sink.write({ left: held(left, first, behind, gain), right: held(right, first, behind, gain) });
      passed += behind - first;
    }
    if (begin + left.length >= to) break;
  }
  await sink.end();
  return passed;
}

function held(
  samples: Float32Array,
  first: number,
  behind: number,
  gain: (index: number) => number,
): Float32Array {
  const cut = samples.slice(first, behind);
  for (let index = 0; index < cut.length; index++) {
    const sample = (cut[index] ?? 0) * gain(first + index);
    cut[index] = Number.isNaN(sample) ? 0 : Math.max(-1, Math.min(1, sample));
  }
  return cut;
}
