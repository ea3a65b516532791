/**
 * Power smoothed by a symmetric Hann window, so that nothing is delayed. The window's three terms (a constant and a
 * cosine) are running sums, which makes the cost independent of its length.
 *
 * @param power of equal steps of time
 * @param width of the whole window, in steps (any number above 2)
 * @returns the weighted mean around each step; beyond both ends there is silence
 */
export function hannSmoothed(power: ArrayLike<number>, width: number): Float64Array {
  const half = Math.max(1, width / 2);
  const reach = Math.ceil(half) - 1;
  const turn = Math.PI / half;
  const length = power.length;
  const sums = [0, 1, 2].map(() => new Float64Array(length + 1));
  const [plain, cosine, sine] = sums as [Float64Array, Float64Array, Float64Array];
  for (let index = 0; index < length; index++) {
    const value = power[index] ?? 0;
    plain[index + 1] = (plain[index] ?? 0) + value;
    cosine[index + 1] = (cosine[index] ?? 0) + value * Math.cos(turn * index);
    sine[index + 1] = (sine[index] ?? 0) + value * Math.sin(turn * index);
  }
  let weight = 0;
  for (let offset = -reach; offset <= reach; offset++) weight += 1 + Math.cos(turn * offset);
  const out = new Float64Array(length);
  for (let index = 0; index < length; index++) {
    const from = Math.max(0, index - reach);
    const to = Math.min(length, index + reach + 1);
    const over = (sum: Float64Array) => (sum[to] ?? 0) - (sum[from] ?? 0);
    const value = over(plain) + Math.cos(turn * index) * over(cosine) + Math.sin(turn * index) * over(sine);
    out[index] = Math.max(0, value / weight);
  }
  return out;
}

/** A level so low that it stands for silence. Unit: dB. */
const silence = -200;

/** Power as level. Unit: dB; silence is −200. */
export function decibelsOf(power: ArrayLike<number>): Float64Array {
  const levels = new Float64Array(power);
  for (let index = 0; index < levels.length; index++) {
    const value = levels[index] ?? 0;
    levels[index] = value > 1e-20 ? 10 * Math.log10(value) : silence;
  }
  return levels;
}

/**
 * The first place from `from` on where levels rise to a threshold, between the steps by a straight line in dB.
 *
 * @returns in steps; `from` itself where the level is already there; undefined where it is not reached before `to`
 */
export function firstRise(
  levels: ArrayLike<number>,
  threshold: number,
  from: number,
  to: number = levels.length,
): number | undefined {
  for (let index = Math.max(0, from); index < Math.min(to, levels.length); index++) {
    const now = levels[index] ?? silence;
    if (now < threshold) continue;
    const before = levels[index - 1];
    if (index <= from || before === undefined || before >= threshold) return index;
    return index - 1 + (threshold - before) / (now - before);
  }
  return undefined;
}
