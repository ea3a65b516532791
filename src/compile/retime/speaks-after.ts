import { type ArticulationMap, bindCondition } from '../../map/index.js';
import type { Duration, Line } from '../../midi/index.js';
import type { Decision } from '../decide/index.js';

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
