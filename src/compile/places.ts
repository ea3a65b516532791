import { beatAt, type Position } from '../midi/index.js';
import type { MeasuredLine } from './analyse/index.js';
import { gridPlaces } from './retime/index.js';

/**
 * Where each onset of a line belongs, as a musician tells it: the bar and beat of its place on the grid that is found in
 * the playing, never in a bar before the one in which it was struck; null where there are no bars. A chord has one place.
 */
export function placesOf({ clock, measures }: MeasuredLine): (onset: number) => Position | null {
  const ticks = new Float64Array(measures.onsets.length).map((_, onset) => measures.onsetTick(onset) ?? 0);
  const grid = gridPlaces(clock, ticks, undefined);
  const bars = new Uint32Array(grid.length);
  const beats = new Uint32Array(grid.length);
  for (let onset = 0; onset < grid.length; onset++) {
    const [place, tick] = [grid[onset] ?? Number.NaN, ticks[onset] ?? 0];
    const position = Number.isNaN(place) ? beatAt(clock, tick) : placeOnGrid(place, tick);
    bars[onset] = position?.bar ?? 0;
    beats[onset] = position?.beat ?? 0;
  }
  return (onset) => {
    const bar = bars[onset] ?? 0;
    return bar === 0 ? null : { bar, beat: beats[onset] ?? 0 };
  };

  function placeOnGrid(place: number, tick: number): Position | null {
    const struck = clock.position(tick);
    if (struck === null) return beatAt(clock, tick);
    const found = clock.position(Math.round(place));
    return found && found.bar >= struck.bar ? found : { bar: struck.bar, beat: 1 };
  }
}
