import { bindCondition } from '../../map/conditions/index.js';
import type { Decision } from '../decide/decision.js';
import type { Line } from '../../midi/line.js';
import type { Duration } from '../../midi/duration.js';
import type { ArticulationMap } from '../../map/types.js';

/** How long each note's articulation takes to speak: the first step of its table that fits the note as it was played. */
export function bindSpeaksAfter(map: ArticulationMap, line: Line): (decision: Decision) => Duration {
  const tables = new Map(
    [...map.articulations.values()].map(({ name, speaksAfter }) => [
      name,
      speaksAfter.map(({ when, is }) => ({ fits: when ? bindCondition(when, line) : () => true, is })),
    ]),
  );
  return ({ articulation, note }) =>
    tables.get(articulation)?.find(({ fits }) => fits(note))?.is ?? { unit: 'ms', ms: 0 };
}
