import { filterOf } from './biquad.js';
import { kWeighting } from './k-weighting.js';

/**
 * K-weighted power of two channels over short equal steps of time: what loudness, onset, seat and length are measured
 * from.
 */
export interface StereoPower {
  /** Unit: seconds. */
  readonly step: number;
  /** Mean squares of each step. */
  readonly left: Float64Array;
  readonly right: Float64Array;
  /** Mean product of the channels: positive where they move alike. */
  readonly cross: Float64Array;
}

/** Sums over a stretch of time. */
export interface PowerSum {
  readonly left: number;
  readonly right: number;
  readonly cross: number;
}

/** About 8,000 steps a second: an eighth of a millisecond. */
const stepsPerSecond = 8000;

/** The power of a stereo sound; its filters begin at rest. */
export function stereoPower(
  left: ArrayLike<number>,
  right: ArrayLike<number>,
  sampleRate: number,
): StereoPower {
  const samples = Math.max(1, Math.round(sampleRate / stepsPerSecond));
  const [a, b] = [filterOf(kWeighting(sampleRate))(left), filterOf(kWeighting(sampleRate))(right)];
  const length = Math.floor(Math.min(a.length, b.length) / samples);
  const power = {
    step: samples / sampleRate,
    left: new Float64Array(length),
    right: new Float64Array(length),
    cross: new Float64Array(length),
  };
  for (let index = 0; index < length; index++) {
    let [ll, rr, lr] = [0, 0, 0];
    for (let at = index * samples; at < (index + 1) * samples; at++) {
      const [l, r] = [a[at] ?? 0, b[at] ?? 0];
      ll += l * l;
      rr += r * r;
      lr += l * r;
    }
    power.left[index] = ll / samples;
    power.right[index] = rr / samples;
    power.cross[index] = lr / samples;
  }
  return power;
}

/** Mean power from one time to another, counted from the first step; undefined where no step lies there. Unit: seconds. */
export function meanPower(
  { step, left, right, cross }: StereoPower,
  from: number,
  to: number,
): PowerSum | undefined {
  const first = Math.max(0, Math.round(from / step));
  const end = Math.min(left.length, Math.round(to / step));
  if (end <= first) return undefined;
  const mean = (values: Float64Array) => {
    let sum = 0;
    for (let index = first; index < end; index++) sum += values[index] ?? 0;
    return sum / (end - first);
  };
  return { left: mean(left), right: mean(right), cross: mean(cross) };
}

/** The sum of both channels' power, step by step. */
export function totalPower({ left, right }: StereoPower): Float64Array {
  return left.map((value, index) => value + (right[index] ?? 0));
}
