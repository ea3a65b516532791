import { decibelsOf, firstRise, quantile } from '../../signal/index.js';
import { frequencyOf, loudnessOf, type Onset } from './onset.js';

/** Harmonics of the new note are looked at up to this one, and to this frequency. */
const highestHarmonic = 8;
const highestFrequency = 6000;

/** Harmonics of the new note that lie nearer to one of the old one are passed over; in the old one's fundamental. */
const leastDistance = 0.3;

/** Unit: seconds. */
const step = 0.001;
/** The second note is looked at for so long. Unit: seconds. */
const longest = 1.7;
const leastRise = 20;

/**
 * When the second of two joined notes is heard to begin: by the energy at those harmonics of its own that the first note
 * does not have. What of the first note leaks into them is found from the time before.
 *
 * @param channels the sound of both notes
 * @param noteOn of the second note, from the first sample. Unit: seconds
 * @returns from its note-on; undefined where it does not stand out from the first
 */
export function joinedOnset(
  channels: readonly Float32Array[],
  sampleRate: number,
  pitches: readonly [from: number, to: number],
  noteOn: number,
): Onset | undefined {
  const [old, own] = [frequencyOf(pitches[0]), frequencyOf(pitches[1])];
  const partials = Array.from({ length: highestHarmonic }, (_, index) => own * (index + 1)).filter(
    (frequency) => frequency < highestFrequency && distance(frequency, old) >= leastDistance,
  );
  // Two bins of the window away from the old note's nearest harmonic.
  const window = Math.max(0.02, Math.min(0.08, 2.2 / (leastDistance * old)));
  const from = Math.max(0, noteOn - 0.4);
  const part = channels.map((samples) => samples.subarray(Math.round(from * sampleRate)));
  const energy = part.flatMap((samples) =>
    partials.map((frequency) => partialPower(samples, frequency, window, sampleRate)),
  );
  const [first] = energy;
  if (!first) return undefined;
  const total = first.map((_, index) => energy.reduce((sum, power) => sum + (power[index] ?? 0), 0));
  const levels = decibelsOf(total);
  const at = (time: number) => Math.max(0, Math.round((noteOn - from + time) / step));
  const before = quantile(levels.subarray(at(-0.15), at(-0.02)), 0.5);
  const reference = loudnessOf({ total, levels, step, before }, at(-0.02), at(longest));
  if (!(reference >= before + leastRise)) return undefined;
  const crossing = (below: number) => {
    const found = firstRise(levels, reference + below, at(-0.02));
    return found === undefined ? undefined : ((found + 0.5) * step - (noteOn - from)) * 1000;
  };
  const [early, middle, late] = [crossing(-15), crossing(-12), crossing(-6)];
  if (early === undefined || middle === undefined || late === undefined) return undefined;
  return { early, at: middle, late };
}

/** How far a frequency lies from the nearest harmonic of a note, in its fundamental. */
function distance(frequency: number, fundamental: number): number {
  const place = frequency / fundamental;
  return Math.abs(place - Math.max(1, Math.round(place)));
}

/** The power at one frequency over time: mixed down to 0 Hz, summed over steps, smoothed by a Hann window. */
function partialPower(
  samples: Float32Array,
  frequency: number,
  window: number,
  sampleRate: number,
): Float64Array {
  const perStep = Math.round(step * sampleRate);
  const count = Math.floor(samples.length / perStep);
  const [real, imaginary] = [new Float64Array(count), new Float64Array(count)];
  const turn = (-2 * Math.PI * frequency) / sampleRate;
  for (let index = 0; index < count; index++) {
    let [re, im] = [0, 0];
    for (let at = index * perStep; at < (index + 1) * perStep; at++) {
      const value = samples[at] ?? 0;
      re += value * Math.cos(turn * at);
      im += value * Math.sin(turn * at);
    }
    real[index] = re;
    imaginary[index] = im;
  }
  const half = window / step / 2;
  const weights = Array.from({ length: 2 * Math.ceil(half) - 1 }, (_, index) => {
    const offset = index - Math.ceil(half) + 1;
    return 1 + Math.cos((Math.PI * offset) / half);
  });
  const reach = (weights.length - 1) / 2;
  return real.map((_, index) => {
    let [re, im] = [0, 0];
    weights.forEach((weight, at) => {
      re += weight * (real[index + at - reach] ?? 0);
      im += weight * (imaginary[index + at - reach] ?? 0);
    });
    return re * re + im * im;
  });
}
