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
  const chosen = new Array<C>(onsets);
  let states: readonly State<C>[] = [];
  for (let onset = 0; onset < onsets; onset++) {
    states = next(onset, states, candidatesOf);
    // Where there is one way only, what lies behind it is settled, and nothing of it is kept.
    const [only] = states;
    if (only && states.length === 1) {
      settle(chosen, onset, only);
      states = [{ candidate: only.candidate, total: 0, before: undefined }];
    }
  }
  settle(chosen, onsets - 1, cheapest(states));
  return chosen;
}

/** Fills in what was chosen up to an onset, back to what is settled. */
function settle<C extends Candidate>(chosen: C[], onset: number, last: State<C> | undefined): void {
  for (let at = onset, state = last; state; at--, state = state.before) chosen[at] = state.candidate;
}

function next<C extends Candidate>(
  onset: number,
  before: readonly State<C>[],
  candidatesOf: (onset: number, previous: string | undefined) => readonly C[],
): readonly State<C>[] {
  const [only] = before;
  if (only && before.length === 1) {
    const candidates = candidatesOf(onset, only.candidate.articulation);
    const [candidate] = candidates;
    if (candidate && candidates.length === 1)
      return [{ candidate, total: only.total + costFrom(only, candidate), before: only }];
  }
  const best: State<C>[] = [];
  const take = (candidate: C, state: State<C> | undefined) => {
    const total = (state?.total ?? 0) + costFrom(state, candidate);
    const at = best.findIndex((known) => known.candidate.articulation === candidate.articulation);
    if (at < 0) best.push({ candidate, total, before: state });
    else if (isLess(total, best[at]?.total ?? 0)) best[at] = { candidate, total, before: state };
  };
  if (before.length === 0) for (const candidate of candidatesOf(onset, undefined)) take(candidate, undefined);
  for (const state of before)
    for (const candidate of candidatesOf(onset, state.candidate.articulation)) take(candidate, state);
  return best;
}

function costFrom<C extends Candidate>(state: State<C> | undefined, { articulation, cost }: C): number {
  const isSame = state === undefined || state.candidate.articulation === articulation;
  return cost + (isSame ? 0 : changeCost);
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
