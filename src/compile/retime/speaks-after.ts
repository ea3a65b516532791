import { type Articulation, type ArticulationMap, bindCondition, type TimeStep } from '../../map/index.js';
import type { Duration, Line, MeasuredNote } from '../../midi/index.js';
import { byArticulation, type Decision } from '../decide/index.js';
import type { RetimedPart } from './state.js';

/** What is asked of a decision. */
type Spoken = Pick<Decision, 'articulation' | 'note'>;

interface BoundStep {
  /** Absent where every note fits. */
  readonly fits?: (note: MeasuredNote) => boolean;
  readonly is: Duration;
}

function bindTable(table: readonly TimeStep[] | undefined, line: Line): readonly BoundStep[] {
  return (table ?? []).map(({ when, is }) => (when ? { fits: bindCondition(when, line), is } : { is }));
}

/** The first step that fits a note as it was played; undefined where there is none. */
function stepOf(table: readonly BoundStep[], noteOf: () => MeasuredNote): Duration | undefined {
  const first = table[0];
  // Most tables are one time for all notes, and need not look at them.
  if (!first?.fits) return first?.is;
  const note = noteOf();
  return table.find(({ fits }) => !fits || fits(note))?.is;
}

const atOnce: Duration = { unit: 'ms', ms: 0 };

/** How long each note's articulation takes to speak. */
export function bindSpeaksAfter(map: ArticulationMap, line: Line): (decision: Spoken) => Duration {
  const tables = new Map(
    Array.from(map.articulations.values(), ({ name, speaksAfter }) => [name, bindTable(speaksAfter, line)]),
  );
  return ({ articulation, note }) => stepOf(tables.get(articulation) ?? [], () => note) ?? atOnce;
}

/** The same, by row. */
export function speaksAfterOf(part: RetimedPart): (row: number) => Duration {
  const times = timesOfRows(part, ({ speaksAfter }) => speaksAfter);
  return (row) => times(row) ?? atOnce;
}

/** How far each row is held over the next onset where it is joined; undefined where its articulation joins none. */
export function overlapOf(part: RetimedPart): (row: number) => Duration | undefined {
  return timesOfRows(part, ({ joins }) => joins?.overlap);
}

function timesOfRows(
  { map, line, decided }: RetimedPart,
  tableOf: (articulation: Articulation) => readonly TimeStep[] | undefined,
): (row: number) => Duration | undefined {
  const tables = byArticulation(decided, (name) => {
    const articulation = map.articulations.get(name);
    return bindTable(articulation && tableOf(articulation), line);
  });
  return (row) => stepOf(tables(row), () => decided.noteOf(row));
}
