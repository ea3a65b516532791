import { type Articulation, type ArticulationMap, bindCondition, type TimeStep } from '../../map/index.js';
import type { Duration, Line } from '../../midi/index.js';
import type { Decision } from '../decide/index.js';

/** What is asked of a decision. */
type Spoken = Pick<Decision, 'articulation' | 'note'>;

type BoundSteps = (decision: Spoken) => Duration | undefined;

/** The first step of its articulation's table that fits each note as it was played; undefined where it has no table. */
function bindSteps(
  map: ArticulationMap,
  line: Line,
  tableOf: (articulation: Articulation) => readonly TimeStep[] | undefined,
): BoundSteps {
  const tables = new Map(
    [...map.articulations.values()].map((articulation) => [
      articulation.name,
      tableOf(articulation)?.map(({ when, is }) => ({
        fits: when ? bindCondition(when, line) : () => true,
        is,
      })),
    ]),
  );
  return ({ articulation, note }) => tables.get(articulation)?.find(({ fits }) => fits(note))?.is;
}

/** How long each note's articulation takes to speak. */
export function bindSpeaksAfter(map: ArticulationMap, line: Line): (decision: Spoken) => Duration {
  const steps = bindSteps(map, line, ({ speaksAfter }) => speaksAfter);
  return (decision) => steps(decision) ?? { unit: 'ms', ms: 0 };
}

/** How far each note is held over the next onset where it is joined; undefined where its articulation joins none. */
export function bindOverlap(map: ArticulationMap, line: Line): BoundSteps {
  return bindSteps(map, line, ({ joins }) => joins?.overlap);
}
