import { clickLength, clickSamples } from '../plan/click.js';

/** A click that was found. */
export interface Click {
  /** The middle of it, from the first sample that was searched. Unit: samples, with fractions. */
  readonly at: number;
  /** How alike it is: 1 for nothing but the click. */
  readonly likeness: number;
}

/**
 * The least likeness of a click. Sound that is no click has about 0.1 (one over the root of length times band width of
 * the sweep); a click with a room and its noise some 0.6.
 */
const leastLikeness = 0.3;

/** The search is made at this rate or a little more, which the sweep still fits in, and made exact at the full one. */
const coarseRate = 20_000;

/** Clicks in a sound, in order of time, to a fraction of a sample. */
export function findClicks(sound: Float32Array, sampleRate: number): readonly Click[] {
  const factor = Math.max(1, Math.floor(sampleRate / coarseRate));
  const coarse = averaged(sound, factor);
  const likeness = likenessOf(coarse, averaged(clickSamples(sampleRate), factor));
  const apart = Math.round((clickLength * sampleRate) / factor);
  const exact = clickSamples(sampleRate);
  return peaks(likeness, apart).flatMap((at) => {
    const from = Math.max(0, Math.round((at - 2) * factor));
    const part = sound.subarray(from, from + exact.length + 4 * factor + 4);
    const fine = likenessOf(part, exact);
    const best = highest(fine);
    const value = fine[best] ?? 0;
    if (value < leastLikeness) return [];
    return [{ at: from + best + vertex(fine, best) + (exact.length - 1) / 2, likeness: value }];
  });
}

/** Means of so many samples each. */
function averaged(samples: ArrayLike<number>, factor: number): Float64Array {
  return Float64Array.from({ length: Math.floor(samples.length / factor) }, (_, index) => {
    let sum = 0;
    for (let at = index * factor; at < (index + 1) * factor; at++) sum += samples[at] ?? 0;
    return sum / factor;
  });
}

/** How alike a sound is to a pattern that begins at each of its samples: the cosine between them, whatever its sign. */
function likenessOf(sound: ArrayLike<number>, pattern: Float64Array): Float64Array {
  const count = Math.max(0, sound.length - pattern.length + 1);
  const out = new Float64Array(count);
  const squares = new Float64Array(sound.length + 1);
  for (let at = 0; at < sound.length; at++) squares[at + 1] = (squares[at] ?? 0) + (sound[at] ?? 0) ** 2;
  const own = pattern.reduce((sum, value) => sum + value * value, 0);
  for (let at = 0; at < count; at++) {
    const energy = (squares[at + pattern.length] ?? 0) - (squares[at] ?? 0);
    if (energy <= 1e-12) continue;
    let sum = 0;
    for (let index = 0; index < pattern.length; index++)
      sum += (sound[at + index] ?? 0) * (pattern[index] ?? 0);
    out[at] = Math.abs(sum) / Math.sqrt(energy * own);
  }
  return out;
}

/** Places that are higher than all within some distance of them. */
function peaks(values: Float64Array, apart: number): readonly number[] {
  const found: number[] = [];
  values.forEach((value, at) => {
    // Averaging costs a little likeness.
    if (value < 0.8 * leastLikeness) return;
    const last = found.at(-1);
    if (last === undefined || at - last > apart) found.push(at);
    else if (value > (values[last] ?? 0)) found[found.length - 1] = at;
  });
  return found;
}

function highest(values: Float64Array): number {
  let best = 0;
  values.forEach((value, at) => {
    if (value > (values[best] ?? 0)) best = at;
  });
  return best;
}

/** Where the parabola through a peak and its neighbours is highest, from the peak. */
function vertex(values: Float64Array, at: number): number {
  const [before, here, after] = [values[at - 1], values[at], values[at + 1]];
  if (before === undefined || here === undefined || after === undefined) return 0;
  const bend = before - 2 * here + after;
  return bend < 0 ? Math.max(-0.5, Math.min(0.5, (0.5 * (before - after)) / bend)) : 0;
}
