/** The onsets of a line. Unit: ms. */
export interface Paces {
  readonly length: number;
  /** To the next onset; of the last, how long its top note is held. */
  pace(onset: number): number;
  restAfter(onset: number): number;
}

/** What the notes of onsets are measured against, in columns. */
export interface ShareIntervals {
  /** Unit: ms. */
  readonly ms: Float64Array;
  /** 1 before a rest: a note there overlaps nothing, and fills its interval at most. */
  readonly isBeforeRest: Uint8Array;
}

/** A silence is a rest where it is longer than this many times the interval of the neighbours. */
const restAtLeast = 3;

/**
 * The interval of each onset for the share that its notes fill: its pace, unless a rest follows, which is a silence
 * longer than three times the interval of its neighbours: the two onsets ahead of it, by their own intervals, and the two behind
 * it, by their paces; the longest counts, so that a dotted rhythm has no rest in it. Own choice, of several that were
 * tried on open performances: players do not hold a note longer because a rest is long.
 */
export function shareIntervals({ length, pace: paceOf, restAfter }: Paces): ShareIntervals {
  const pace = new Float64Array(length);
  // The last has no pace of its own.
  for (let onset = 0; onset < length; onset++) pace[onset] = paceOf(onset);
  const ms = new Float64Array(length);
  const isBeforeRest = new Uint8Array(length);
  const from = (column: Float64Array, onset: number, end: number) =>
    onset >= 0 && onset < end ? (column[onset] ?? 0) : Number.NEGATIVE_INFINITY;
  for (let onset = 0; onset < length; onset++) {
    const neighbours = Math.max(
      from(ms, onset - 2, length),
      from(ms, onset - 1, length),
      from(pace, onset + 1, length - 1),
      from(pace, onset + 2, length - 1),
    );
    const isRest = onset === length - 1 || restAfter(onset) > restAtLeast * neighbours;
    isBeforeRest[onset] = isRest && Number.isFinite(neighbours) ? 1 : 0;
    ms[onset] = isBeforeRest[onset] === 1 ? neighbours : (pace[onset] ?? 0);
  }
  return { ms, isBeforeRest };
}

/** The share of an onset's interval that a note fills; 1 for the whole. Of no interval at all, everything is filled. */
export function shareOf(heldMs: number, { ms, isBeforeRest }: ShareIntervals, onset: number): number {
  const interval = ms[onset] ?? 0;
  if (interval === 0) return 1;
  const share = heldMs / interval;
  return isBeforeRest[onset] === 1 ? Math.min(1, share) : share;
}
