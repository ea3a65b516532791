/** Numbers in order, each once. */
export function risingSet(numbers: readonly number[]): readonly number[] {
  const rising = Float64Array.from(numbers).sort();
  return Array.from(rising.filter((number, index) => number !== rising[index - 1]));
}
