/** How values fall, counted on a scale of ratios. */
export interface Density {
  /** ln of the middle of each cell; evenly spaced. */
  readonly at: Float64Array;
  /** Smoothed number of values in each cell. */
  readonly height: Float64Array;
  /** The width of the smoothing, in ln. */
  readonly bandwidth: number;
}

/** Cells lie this far apart: 2 % of the value. */
const step = 0.02;

/**
 * A smooth histogram of positive values on a logarithmic scale: lengths are judged by ratio. The width follows
 * Silverman (1986), Density Estimation, eq. 3.31 (memory), on the narrower of the standard deviation and the
 * quartiles, halved, since lengths fall in several heaps.
 */
export function densityOf(values: ArrayLike<number>): Density {
  const logs = Array.from(values)
    .filter((value) => value > 0 && Number.isFinite(value))
    .map(Math.log)
    .sort((a, b) => a - b);
  const bandwidth = bandwidthOf(logs);
  const lowest = (logs[0] ?? 0) - 3 * bandwidth;
  const cells = Math.min(2000, Math.ceil(((logs.at(-1) ?? 0) + 3 * bandwidth - lowest) / step) + 1);
  const counts = new Float64Array(cells);
  for (const log of logs) {
    const cell = Math.min(cells - 1, Math.max(0, Math.round((log - lowest) / step)));
    counts[cell] = (counts[cell] ?? 0) + 1;
  }
  return {
    at: Float64Array.from({ length: cells }, (_, cell) => lowest + cell * step),
    height: smoothed(counts, bandwidth / step),
    bandwidth,
  };
}

function bandwidthOf(logs: readonly number[]): number {
  const n = Math.max(1, logs.length);
  const mean = logs.reduce((sum, log) => sum + log, 0) / n;
  const deviation = Math.sqrt(logs.reduce((sum, log) => sum + (log - mean) ** 2, 0) / n);
  const quartile = (share: number) => logs[Math.floor(share * (n - 1))] ?? 0;
  const middle = (quartile(0.75) - quartile(0.25)) / 1.34;
  const spread = Math.min(deviation, middle > 0 ? middle : deviation);
  return Math.min(0.25, Math.max(0.03, 0.45 * spread * n ** -0.2));
}

/** Gaussian smoothing. */
function smoothed(counts: Float64Array, width: number): Float64Array {
  const reach = Math.ceil(3 * width);
  const weights = Float64Array.from({ length: 2 * reach + 1 }, (_, index) =>
    Math.exp(-0.5 * ((index - reach) / width) ** 2),
  );
  const sum = weights.reduce((total, weight) => total + weight, 0);
  return counts.map((_, cell) => {
    let height = 0;
    for (let index = 0; index <= 2 * reach; index++)
      height += (counts[cell + index - reach] ?? 0) * (weights[index] ?? 0);
    return height / sum;
  });
}

/** The height at a value. */
export function heightAt({ at, height }: Density, value: number): number {
  const cell = Math.round((Math.log(value) - (at[0] ?? 0)) / step);
  return height[cell] ?? 0;
}
