/** What one onset may be given. */
export interface Candidate {
  /** Candidates with the same name are one state of the line. */
  readonly articulation: string;
  /** What it costs to give it. Unit: nats; 0 for what the plain ladder gives. */
  readonly cost: number;
}

/** What another articulation than the one before costs. Unit: nats. */
export const changeCost = 4;

/** A state of the line: the cheapest way to end an onset with an articulation. */
interface State<C extends Candidate> {
  readonly candidate: C;
  readonly total: number;
  readonly before: State<C> | undefined;
}

/**
 * The cheapest way through a whole line: of each onset's candidates one, so that what they cost and what changes of
 * articulation cost is least together. Never more changes than the plain ladder has, since those cost nothing but
 * changes; between two onsets that have one candidate each, nothing beyond them plays a part. Linear in onsets; of ways
 * that cost the same, the one whose candidates stand first.
 *
 * @param candidatesOf those of an onset, the plain one first, where the onset before it was given an articulation
 */
export function steadiest<C extends Candidate>(
  onsets: number,
  candidatesOf: (onset: number, previous: string | undefined) => readonly C[],
): readonly C[] {
  let states: readonly State<C>[] = [];
  for (let onset = 0; onset < onsets; onset++) states = next(onset, states, candidatesOf);
  const chosen = new Array<C>(onsets);
  let state = cheapest(states);
  for (let onset = onsets - 1; onset >= 0 && state; onset--) {
    chosen[onset] = state.candidate;
    state = state.before;
  }
  return chosen;
}

function next<C extends Candidate>(
  onset: number,
  before: readonly State<C>[],
  candidatesOf: (onset: number, previous: string | undefined) => readonly C[],
): readonly State<C>[] {
  const best = new Map<string, State<C>>();
  const from = before.length > 0 ? before : [undefined];
  for (const state of from) {
    const previous = state?.candidate.articulation;
    for (const candidate of candidatesOf(onset, previous)) {
      const change = previous === undefined || previous === candidate.articulation ? 0 : changeCost;
      const total = (state?.total ?? 0) + candidate.cost + change;
      const known = best.get(candidate.articulation);
      if (!known || isLess(total, known.total))
        best.set(candidate.articulation, { candidate, total, before: state });
    }
  }
  return [...best.values()];
}

function cheapest<C extends Candidate>(states: readonly State<C>[]): State<C> | undefined {
  return states.reduce<State<C> | undefined>(
    (least, state) => (least && !isLess(state.total, least.total) ? least : state),
    undefined,
  );
}

/** Sums that differ by rounding alone are equal. */
function isLess(one: number, other: number): boolean {
  return one < other - 1e-9;
}
