/**
 * What the onsets of a line may be given, one onset after another: for each some candidates, the plain one first. Those with
 * the same articulation are one state of the line.
 */
export interface Candidates {
  /** Finds those of an onset, where the onset before it was given an articulation; undefined for the first. */
  find(onset: number, previous: number | undefined): void;
  /** Those that were found stand in the columns from one index to before another. */
  readonly from: number;
  readonly to: number;
  /** The numbers of articulations. */
  readonly articulations: readonly number[];
  /** What it costs to give each. Unit: nats; 0 for what the plain ladder gives. */
  readonly costs: readonly number[];
}

/** What was chosen for each onset: the articulation, and which of its candidates that was. */
export interface Path {
  readonly articulation: Uint16Array;
  readonly candidate: Uint16Array;
}

/** What another articulation than the one before costs. Unit: nats. */
export const changeCost = 4;

/**
 * The cheapest way through a whole line: of each onset's candidates one, so that what they cost and what changes of
 * articulation cost is least together. Never more changes than the plain ladder has, since those cost nothing but
 * changes; between two onsets that have one candidate each, nothing beyond them plays a part. Linear in onsets; of ways
 * that cost the same, the one whose candidates stand first.
 *
 * @param onOnset is told of each onset that is come to
 */
export function steadiest(
  onsets: number,
  candidates: Candidates,
  onOnset: (onset: number) => void = () => {},
): Path {
  const ways = new Ways(onsets);
  for (let onset = 0; onset < onsets; onset++) {
    onOnset(onset);
    ways.extend(onset, candidates);
  }
  return ways.cheapest();
}

/** The cheapest ways to end an onset, one for each articulation, and how each came there. */
class Ways {
  readonly #chosen: Path;
  /** How many onsets there are so far. */
  #onsets = 0;
  /** The rows of the last onset in the columns below. */
  #from = 0;
  #to = 0;
  /** For each onset behind what is settled, and each articulation that it may end with: a row. */
  readonly #articulations: number[] = [];
  readonly #candidates: number[] = [];
  readonly #totals: number[] = [];
  /** The row of the onset before; −1 for none. */
  readonly #before: number[] = [];

  constructor(onsets: number) {
    this.#chosen = { articulation: new Uint16Array(onsets), candidate: new Uint16Array(onsets) };
  }

  extend(onset: number, candidates: Candidates): void {
    const [from, to] = [this.#from, this.#to];
    this.#from = to;
    this.#onsets = onset + 1;
    if (from === to) {
      candidates.find(onset, undefined);
      this.#takeAll(candidates, -1);
    }
    for (let row = from; row < to; row++) {
      candidates.find(onset, this.#articulations[row] ?? 0);
      this.#takeAll(candidates, row);
    }
    // Where there is one way only, what lies behind it is settled, and nothing of it is kept.
    if (this.#to - this.#from === 1) this.#settle(this.#from);
  }

  cheapest(): Path {
    let least = this.#from;
    for (let row = least + 1; row < this.#to; row++)
      if (isLess(this.#totals[row] ?? 0, this.#totals[least] ?? 0)) least = row;
    if (least < this.#to) this.#settle(least);
    return this.#chosen;
  }

  /** Takes the candidates behind a row, but those whose articulation is had for less. */
  #takeAll({ from, to, articulations, costs }: Candidates, before: number): void {
    const ofBefore = before < 0 ? undefined : this.#articulations[before];
    const soFar = before < 0 ? 0 : (this.#totals[before] ?? 0);
    for (let at = from; at < to; at++) {
      const articulation = articulations[at] ?? 0;
      const isSame = ofBefore === undefined || ofBefore === articulation;
      const total = soFar + ((costs[at] ?? 0) + (isSame ? 0 : changeCost));
      let row = this.#from;
      while (row < this.#to && this.#articulations[row] !== articulation) row += 1;
      if (row < this.#to && !isLess(total, this.#totals[row] ?? 0)) continue;
      this.#articulations[row] = articulation;
      this.#candidates[row] = at - from;
      this.#totals[row] = total;
      this.#before[row] = before;
      if (row === this.#to) this.#to += 1;
    }
  }

  /** Chooses the way that ends in a row, back to what is settled, and keeps only that row. */
  #settle(last: number): void {
    const { articulation, candidate } = this.#chosen;
    for (let row = last, onset = this.#onsets - 1; row >= 0; row = this.#before[row] ?? -1, onset--) {
      articulation[onset] = this.#articulations[row] ?? 0;
      candidate[onset] = this.#candidates[row] ?? 0;
    }
    this.#articulations[0] = this.#articulations[last] ?? 0;
    this.#candidates[0] = this.#candidates[last] ?? 0;
    this.#totals[0] = 0;
    this.#before[0] = -1;
    this.#from = 0;
    this.#to = 1;
  }
}

/** Sums that differ by rounding alone are equal. */
function isLess(one: number, other: number): boolean {
  return one < other - 1e-9;
}
