import { pull, pulledTo } from '../../timing/index.js';
import type { Held, Step } from './held-back.js';
import { gridPlaces } from './places.js';
import { byOnset, type RetimedPart } from './state.js';

/** Onsets pulled part of the way to the grid: new ticks, by decision. */
export function pulledStarts(part: RetimedPart): Step {
  const { line, decisions, options } = part;
  const starts = decisions.map(({ note }) => note.tick);
  const { pull: share } = options;
  if (!share) return { starts, held: [] };
  const places = gridPlaces(line, options.grids);
  const groups = byOnset(part);
  const onsets = line.onsets.map(({ tick }, index) => ({
    tick,
    place: places[index] ?? null,
    notes: (groups[index] ?? []).map((decision) => starts[decision] ?? 0),
  }));
  const moved = pull(onsets, share);
  const held: Held[] = [];
  onsets.forEach((onset, index) => {
    const group = groups[index] ?? [];
    group.forEach((decision, at) => {
      starts[decision] = moved[index]?.[at] ?? starts[decision] ?? 0;
    });
    const to = onset.tick + (moved[index]?.[0] ?? 0) - (onset.notes[0] ?? 0);
    const by = Math.abs(to - Math.max(0, pulledTo(onset, share)));
    if (by > 0) held.push({ onset: index, ms: Math.abs(line.clock.ms(to + by) - line.clock.ms(to)) });
  });
  return { starts, held };
}
