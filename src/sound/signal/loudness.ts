import { type Filter, filterOf } from './biquad.js';
import { kWeighting } from './k-weighting.js';

/** Loudness of K-weighted power, the sum of the channels' mean squares (ITU-R BS.1770-4). Unit: LUFS (dB). */
export function loudnessOfPower(power: number): number {
  return power > 0 ? -0.691 + 10 * Math.log10(power) : Number.NEGATIVE_INFINITY;
}

/** The inverse. */
export function powerOfLoudness(loudness: number): number {
  return 10 ** ((loudness + 0.691) / 10);
}

/** Measures the loudness of a sound as it comes. Channels count alike: left, right, centre. */
export interface LoudnessMeter {
  /** @param channels each channel's samples, all of one length */
  push(channels: readonly ArrayLike<number>[]): void;
  /** Momentary loudness (400 ms) at each tenth of a second, the first at 0.4 s. Unit: LUFS. */
  momentary(): readonly number[];
  /** Gated loudness of the whole so far; −Infinity where nothing passes the gate. Unit: LUFS. */
  integrated(): number;
}

/** Blocks of 400 ms overlap by three quarters; those below −70 LUFS, then those 10 below the rest, do not count. */
const blockSteps = 4;
const gates = { absolute: -70, relative: -10 } as const;

/**
 * Momentary (EBU Tech 3341) and gated integrated loudness (ITU-R BS.1770-4). Holds one number for each tenth of a second.
 */
export function loudnessMeter(sampleRate: number, channelCount: number): LoudnessMeter {
  const filters: readonly Filter[] = Array.from({ length: channelCount }, () =>
    filterOf(kWeighting(sampleRate)),
  );
  const steps: number[] = [];
  const step = Math.round(sampleRate / 10);
  let sum = 0;
  let filled = 0;
  const blocks = () =>
    steps.slice(blockSteps - 1).map((_, index) => mean(steps.slice(index, index + blockSteps)));
  return {
    push(channels) {
      const weighted = filters.map((filter, index) => filter(channels[index] ?? []));
      const length = weighted[0]?.length ?? 0;
      for (let frame = 0; frame < length; frame++) {
        for (const samples of weighted) sum += (samples[frame] ?? 0) ** 2;
        if (++filled < step) continue;
        steps.push(sum / step);
        sum = 0;
        filled = 0;
      }
    },
    momentary: () => blocks().map(loudnessOfPower),
    integrated() {
      const loud = blocks().filter((power) => loudnessOfPower(power) > gates.absolute);
      const gate = loudnessOfPower(mean(loud)) + gates.relative;
      return loudnessOfPower(mean(loud.filter((power) => loudnessOfPower(power) > gate)));
    },
  };
}

function mean(values: readonly number[]): number {
  return values.length === 0 ? 0 : values.reduce((sum, value) => sum + value, 0) / values.length;
}
