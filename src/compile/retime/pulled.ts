import { pull, pulledTo } from '../../timing/index.js';
import type { Held, Step } from './held-back.js';
import { gridPlaces } from './places.js';
import { onsetRows, type RetimedPart } from './state.js';

/** Onsets pulled part of the way to the grid: new ticks, by row. */
export function pulledStarts(part: RetimedPart): Step {
  const { line, decided, options } = part;
  const starts = Float64Array.from(decided.tick);
  const { pull: share } = options;
  if (!share) return { starts, held: [] };
  const places = gridPlaces(line, options.grids);
  const rows = onsetRows(part);
  const onsets = line.onsets.map(({ tick }, index) => ({
    tick,
    place: places[index] ?? null,
    notes: rows.of(index).map((row) => starts[row] ?? 0),
  }));
  const moved = pull(onsets, share);
  const held: Held[] = [];
  onsets.forEach((onset, index) => {
    rows.of(index).forEach((row, at) => {
      starts[row] = moved[index]?.[at] ?? starts[row] ?? 0;
    });
    const to = onset.tick + (moved[index]?.[0] ?? 0) - (onset.notes[0] ?? 0);
    const by = Math.abs(to - Math.max(0, pulledTo(onset, share)));
    if (by > 0) held.push({ onset: index, ms: Math.abs(line.clock.ms(to + by) - line.clock.ms(to)) });
  });
  return { starts, held };
}
