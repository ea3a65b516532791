/** From this many ticks to a whole note on (96 to a quarter) one tick is fine enough to count as the same place. */
const FINE_TICKS_PER_WHOLE = 384;

/**
 * Whether a position stands exactly on a sixteenth or a triplet eighth: within one tick, or on the very tick where
 * ticks are so coarse that one more would take in a good part of all positions.
 *
 * @param ticks from the start of the bar
 */
export function isExact(ticks: number, ticksPerWhole: number): boolean {
  const tolerance = ticksPerWhole >= FINE_TICKS_PER_WHOLE ? 1 : 0;
  return [16, 12].some((parts) => {
    const place = (Math.round((ticks * parts) / ticksPerWhole) * ticksPerWhole) / parts;
    return Math.abs(ticks - Math.round(place)) <= tolerance;
  });
}
