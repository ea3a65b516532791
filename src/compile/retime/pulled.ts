import { pull, pulledTo } from '../../timing/index.js';
import { Held, type Step } from './held-back.js';
import { gridPlaces } from './places.js';
import { lastStarts, onsetRows, type RetimedPart } from './state.js';

/** Onsets pulled part of the way to the grid: new ticks, by row. */
export function pulledStarts(part: RetimedPart): Step {
  const { line, decided, options } = part;
  const { clock, measures } = line;
  const starts = Float64Array.from(decided.tick);
  const held = new Held();
  const { pull: share } = options;
  if (!share) return { starts, held };
  const rows = onsetRows(part);
  const first = new Float64Array(rows.length).map((_, onset) => measures.onsetTick(onset) ?? 0);
  const last = lastStarts(part, starts).map((tick, onset) => Math.max(tick, first[onset] ?? 0));
  const place = gridPlaces(clock, first, options.grids);
  const moved = pull({ first, last, place }, share);
  for (let onset = 0; onset < rows.length; onset++) {
    const tick = first[onset] ?? 0;
    const by = (moved[onset] ?? tick) - tick;
    for (let row = rows.from(onset); row < rows.to(onset); row++) starts[row] = (starts[row] ?? 0) + by;
    const to = rows.from(onset) < rows.to(onset) ? tick + by : tick;
    const missing = Math.abs(to - Math.max(0, pulledTo(tick, place[onset] ?? Number.NaN, share)));
    if (missing > 0) held.add(onset, Math.abs(clock.ms(to + missing) - clock.ms(to)));
  }
  return { starts, held };
}
