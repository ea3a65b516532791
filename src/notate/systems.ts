/** What a bar needs across, in the engraver's units; estimated, not measured. */
export interface BarWidth {
  readonly width: number;
}

/** A page's width, less its margins and what stands before the first bar of a system. */
const SYSTEM_WIDTH = 2000;
const MOST_BARS = 8;

/**
 * Deals bars to systems: as many as fit, eight at most, one at least.
 *
 * @param widths of the bars, estimated
 * @returns for each bar its system, from 0
 */
export function systemsOf(widths: readonly number[]): readonly number[] {
  let system = 0;
  let filled = 0;
  let bars = 0;
  return widths.map((width) => {
    if (bars > 0 && (bars === MOST_BARS || filled + width > SYSTEM_WIDTH)) {
      system += 1;
      filled = 0;
      bars = 0;
    }
    filled += width;
    bars += 1;
    return system;
  });
}
