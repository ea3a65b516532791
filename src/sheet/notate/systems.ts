/** However little stands in them. */
const MOST_BARS = 8;

/** Bars or systems, by their indices: from the first up to the last, which is left out. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/**
 * Deals bars to systems: as many as fit, eight at most, one at least. What lies before and behind the bars that are
 * drawn is not divided.
 *
 * @param widths of the bars
 * @param room what a system has for its bars
 * @param bars those that are drawn
 * @returns for each bar its system, from 0; and the systems that are drawn
 */
export function systemsOf(
  widths: readonly number[],
  room: number,
  bars: Stretch = { from: 0, to: widths.length },
): { readonly systems: readonly number[]; readonly drawn: Stretch } {
  const drawn = dealt(widths.slice(bars.from, bars.to), room);
  const before = bars.from > 0 ? 1 : 0;
  const to = before + (drawn.at(-1) ?? -1) + 1;
  const systems = widths.map((_, index) => {
    if (index < bars.from) return 0;
    return index < bars.to ? before + (drawn[index - bars.from] ?? 0) : to;
  });
  return { systems, drawn: { from: before, to } };
}

function dealt(widths: readonly number[], room: number): readonly number[] {
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
