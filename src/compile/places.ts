import { beatAt, type Line, type Position } from '../midi/index.js';
import { gridPlaces } from './retime/index.js';

/**
 * Where each onset of a line belongs, as a musician tells it: the bar and beat of its place on the grid that is found in
 * the playing, never in a bar before the one in which it was struck; null where there are no bars. A chord has one place.
 */
export function placesOf(line: Line): readonly (Position | null)[] {
  const { clock, onsets } = line;
  const ticks = Float64Array.from(onsets, ({ tick }) => tick);
  return Array.from(gridPlaces(clock, ticks, undefined), (place, index) => {
    const tick = ticks[index] ?? 0;
    const struck = clock.position(tick);
    if (Number.isNaN(place) || struck === null) return beatAt(clock, tick);
    const found = clock.position(Math.round(place));
    return found && found.bar >= struck.bar ? found : { bar: struck.bar, beat: 1 };
  });
}
