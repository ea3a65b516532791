import { pull } from '../../timing/index.js';
import { gridPlaces } from './places.js';
import { byOnset, type RetimedPart } from './state.js';

/** Onsets pulled part of the way to the grid: new ticks, by decision. */
export function pulledStarts(part: RetimedPart): readonly number[] {
  const { line, decisions, options } = part;
  const starts = decisions.map(({ note }) => note.tick);
  if (!options.pull) return starts;
  const places = gridPlaces(line, options.grids);
  const groups = byOnset(part);
  const moved = pull(
    line.onsets.map(({ tick }, index) => ({
      tick,
      place: places[index] ?? null,
      notes: (groups[index] ?? []).map((decision) => starts[decision] ?? 0),
    })),
    options.pull,
  );
  groups.forEach((group, onset) => {
    group.forEach((decision, at) => {
      starts[decision] = Math.max(0, moved[onset]?.[at] ?? starts[decision] ?? 0);
    });
  });
  return starts;
}
