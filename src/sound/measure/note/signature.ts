import { bandPass, filterOf } from '../../signal/index.js';

/**
 * What a note sounds like: levels of octave bands in four stretches of its first second, and of all of it in 20 ms. The
 * latter tell a tremolo from a plain note. Unit: dB.
 */
export interface Signature {
  readonly colour: readonly number[];
  readonly whole: readonly number[];
}

/** Unit: seconds. */
const frame = 0.02;

/** The middles of octave bands from 63 Hz (IEC 61260). */
const bands = [63, 125, 250, 500, 1000, 2000, 4000, 8000, 16_000];
/** One octave: middle ÷ width. */
const quality = Math.SQRT2;
/** Unit: seconds from the note-on. */
const stretches = [0, 0.1, 0.3, 0.6, 1];

/** Levels farther below the loudest of both are not heard beside it. Unit: dB. */
const heardWithin = 40;

/** @param noteOn from the first sample. Unit: seconds */
export function signatureOf(
  channels: readonly Float32Array[],
  sampleRate: number,
  noteOn: number,
): Signature {
  const usable = bands.filter((frequency) => frequency < 0.4 * sampleRate);
  const [first, last] = [noteOn - 0.05, noteOn + (stretches.at(-1) ?? 0)].map((time) =>
    Math.max(0, Math.round(time * sampleRate)),
  );
  const parts = channels.map((samples) => samples.subarray(first, last));
  const offset = Math.round(noteOn * sampleRate) - (first ?? 0);
  const whole = Array.from({ length: Math.round(1 / frame) }, (_, index) => {
    const from = offset + Math.round(index * frame * sampleRate);
    const to = offset + Math.round((index + 1) * frame * sampleRate);
    return levelOf(
      parts.map((samples) => samples.subarray(from, to)),
      to - from,
    );
  });
  const colour = usable.flatMap((frequency) => {
    const filtered = parts.map((part) => filterOf([bandPass(frequency, quality, sampleRate)])(part));
    return stretches.slice(1).map((end, index) => {
      const from = offset + Math.round((stretches[index] ?? 0) * sampleRate);
      const to = offset + Math.round(end * sampleRate);
      return levelOf(
        filtered.map((samples) => samples.subarray(from, to)),
        to - from,
      );
    });
  });
  return { colour, whole };
}

function levelOf(parts: readonly ArrayLike<number>[], count: number): number {
  const power = parts.reduce((sum, samples) => sum + energy(samples), 0);
  return 10 * Math.log10(power / Math.max(1, count) + 1e-16);
}

/** How unlike two sounds are: the mean difference of the levels that are heard in either, in colour or in time. Unit: dB. */
export function unlikeness(a: Signature, b: Signature): number {
  return Math.max(meanDifference(a.colour, b.colour), meanDifference(a.whole, b.whole));
}

function meanDifference(a: readonly number[], b: readonly number[]): number {
  const floor = Math.max(...a, ...b) - heardWithin;
  const differences = a.flatMap((level, index) => {
    const other = b[index] ?? floor;
    if (level < floor && other < floor) return [];
    return [Math.abs(Math.max(level, floor) - Math.max(other, floor))];
  });
  return differences.reduce((sum, value) => sum + value, 0) / Math.max(1, differences.length);
}

function energy(samples: ArrayLike<number>): number {
  let sum = 0;
  for (let at = 0; at < samples.length; at++) sum += (samples[at] ?? 0) ** 2;
  return sum;
}
