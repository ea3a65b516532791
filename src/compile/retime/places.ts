import type { Line, Onset } from '../../midi/index.js';
import { findGrid, type GridWidth, nearestGivenPlaces } from '../../timing/index.js';

/** Onsets whose beats can be counted from one tick: until a bar begins between two of its quarters. */
interface Section {
  readonly start: number;
  readonly onsets: Onset[];
}

/**
 * The place of each onset on the grid, in ticks (may lie between two); null where it has none. The grid is found from
 * the playing, or the nearest of the given ones is taken.
 */
export function gridPlaces(line: Line, grids: readonly GridWidth[] | undefined): readonly (number | null)[] {
  const { ticksPerWhole } = line.clock;
  if (ticksPerWhole === null) return line.onsets.map(() => null);
  const quarter = ticksPerWhole / 4;
  return sections(line, quarter).flatMap(({ start, onsets }) => {
    const beats = onsets.map(({ tick }) => (tick - start) / quarter);
    const places = grids ? nearestGivenPlaces(beats, grids) : foundPlaces(line, onsets, beats, quarter);
    return places.map((place) => (place === null ? null : start + place * quarter));
  });
}

function foundPlaces(
  line: Line,
  onsets: readonly Onset[],
  beats: readonly number[],
  quarter: number,
): readonly number[] {
  const played = onsets.map(({ tick }, index) => ({
    beat: beats[index] ?? 0,
    msPerBeat: line.clock.ms(tick + quarter) - line.clock.ms(tick),
  }));
  return findGrid(played).places;
}

function sections(line: Line, quarter: number): readonly Section[] {
  const found: Section[] = [];
  for (const onset of line.onsets) {
    const bar = line.clock.position(onset.tick)?.bar ?? 1;
    const barStart = line.clock.barStart(bar) ?? 0;
    const open = found.at(-1);
    if (open && (barStart - open.start) % quarter === 0) open.onsets.push(onset);
    else found.push({ start: barStart, onsets: [onset] });
  }
  return found;
}
