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
    const fine = likenessOf(new Float64Array(part), exact);
    const best = highest(fine);
    const value = fine[best] ?? 0;
    if (value < leastLikeness) return [];
    return [{ at: from + best + vertex(fine, best) + (exact.length - 1) / 2, likeness: value }];
  });
}

/** Means of so many samples each. */
function averaged(samples: ArrayLike<number>, factor: number): Float64Array {
  const means = new Float64Array(Math.floor(samples.length / factor));
  for (let index = 0; index < means.length; index++) {
    let sum = 0;
    for (let at = index * factor; at < (index + 1) * factor; at++) sum += samples[at] ?? 0;
    means[index] = sum / factor;
  }
  return means;
}

/** How alike a sound is to a pattern that begins at each of its samples: the cosine between them, whatever its sign. */
function likenessOf(sound: Float64Array, pattern: Float64Array): Float64Array {
  const count = Math.max(0, sound.length - pattern.length + 1);
  const out = new Float64Array(count);
  const squares = new Float64Array(sound.length + 1);
  for (let at = 0; at < sound.length; at++) squares[at + 1] = (squares[at] ?? 0) + (sound[at] ?? 0) ** 2;
  const own = pattern.reduce((sum, value) => sum + value * value, 0);
  const energyAt = (at: number) => (squares[at + pattern.length] ?? 0) - (squares[at] ?? 0);
  const sums = [0, 0, 0, 0];
  // Reading beyond the end of an array is slow, and makes slow what reads it from then on.
  const padded = new Float64Array(sound.length + sums.length);
  padded.set(sound);
  for (let first = 0; first < count; first += sums.length) {
    let isSilent = true;
    for (let at = first; at < first + sums.length; at++) if (energyAt(at) > 1e-12) isSilent = false;
    if (isSilent) continue;
    productsAt(first, padded, pattern, sums);
    sums.forEach((sum, index) => {
      const energy = energyAt(first + index);
      if (energy > 1e-12) out[first + index] = Math.abs(sum) / Math.sqrt(energy * own);
    });
  }
  return out;
}

/**
 * The sums of products of a pattern and what begins at four places in a row: each waits for its own last sum alone, so
 * that four take little longer than one.
 */
function productsAt(first: number, sound: Float64Array, pattern: Float64Array, sums: number[]): void {
  let a = 0;
  let b = 0;
  let c = 0;
  let d = 0;
  for (let index = 0; index < pattern.length; index++) {
    const factor = pattern[index] ?? 0;
    const at = first + index;
    a += (sound[at] ?? 0) * factor;
    b += (sound[at + 1] ?? 0) * factor;
    c += (sound[at + 2] ?? 0) * factor;
    d += (sound[at + 3] ?? 0) * factor;
  }
  sums[0] = a;
  sums[1] = b;
  sums[2] = c;
  sums[3] = d;
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
