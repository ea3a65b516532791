/** The largest of numbers, at least a floor; of as many as a score may hold, which `Math.max` cannot be given. */
export function largest(values: Iterable<number>, floor: number): number {
  let most = floor;
  for (const value of values) if (value > most) most = value;
  return most;
}
