/** However little stands in them. */
const MOST_BARS = 8;

/**
 * Deals bars to systems: as many as fit, eight at most, one at least.
 *
 * @param widths of the bars
 * @param room what a system has for its bars
 * @returns for each bar its system, from 0
 */
export function systemsOf(widths: readonly number[], room: number): readonly number[] {
  let system = 0;
  let filled = 0;
  let bars = 0;
  return widths.map((width) => {
    if (bars > 0 && (bars === MOST_BARS || filled + width > room)) {
      system += 1;
      filled = 0;
      bars = 0;
    }
    filled += width;
    bars += 1;
    return system;
  });
}
