/** The middle value; NaN where there are none. */
export function median(values: readonly number[]): number {
  return quantile(values, 0.5);
}

/** A quantile with straight lines between the values; NaN where there are none. */
export function quantile(values: ArrayLike<number>, share: number): number {
  const sorted = Float64Array.from(values).sort();
  const at = share * (sorted.length - 1);
  const [low, high] = [sorted[Math.floor(at)], sorted[Math.ceil(at)]];
  if (low === undefined || high === undefined) return Number.NaN;
  return low + (high - low) * (at - Math.floor(at));
}

/** Between the quartiles: half of the values lie there. 0 for fewer than two. */
export function spread(values: readonly number[]): number {
  return values.length < 2 ? 0 : quantile(values, 0.75) - quantile(values, 0.25);
}
