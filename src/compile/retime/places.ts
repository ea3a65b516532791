import { barFinder, type Clock } from '../../midi/index.js';
import { findGrid, type GridWidth, nearestGivenPlaces } from '../../timing/index.js';

/** Onsets whose beats can be counted from one tick: until a bar begins between two of its quarters. */
interface Section {
  readonly start: number;
  /** The first of them, and the one behind the last. */
  readonly from: number;
  to: number;
}

/**
 * The place of each onset on the grid, in ticks (may lie between two); NaN where it has none. The grid is found from
 * the playing, or the nearest of the given ones is taken.
 *
 * @param ticks rising
 */
export function gridPlaces(
  clock: Clock,
  ticks: Float64Array,
  grids: readonly GridWidth[] | undefined,
): Float64Array {
  const found = new Float64Array(ticks.length).fill(Number.NaN);
  const { ticksPerWhole } = clock;
  if (ticksPerWhole === null) return found;
  const quarter = ticksPerWhole / 4;
  for (const { start, from, to } of sections(clock, ticks, quarter)) {
    const beats = ticks.subarray(from, to).map((tick) => (tick - start) / quarter);
    const places = grids
      ? nearestGivenPlaces(beats, grids)
      : findGrid({ beats, msPerBeat: msPerBeat(clock, ticks.subarray(from, to), quarter) }).places;
    found.set(
      places.map((place) => start + place * quarter),
      from,
    );
  }
  return found;
}

function msPerBeat(clock: Clock, ticks: Float64Array, quarter: number): Float64Array {
  return ticks.map((tick) => clock.ms(tick + quarter) - clock.ms(tick));
}

function sections(clock: Clock, ticks: Float64Array, quarter: number): readonly Section[] {
  const found: Section[] = [];
  const barAt = barFinder(clock);
  for (let onset = 0; onset < ticks.length; onset++) {
    const open = found.at(-1);
    const start = barAt(ticks[onset] ?? 0)?.from ?? 0;
    if (open && (start - open.start) % quarter === 0) open.to = onset + 1;
    else found.push({ start, from: onset, to: onset + 1 });
  }
  return found;
}
