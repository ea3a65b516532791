import type { MeasuredNote, Onset } from '../../midi/index.js';

/** What the notes of an onset are measured against. Unit: ms. */
export interface ShareInterval {
  readonly ms: number;
  /** A note before a rest overlaps nothing: it fills its interval at most. */
  readonly isBeforeRest: boolean;
}

/** A silence is a rest where it is longer than this many times the interval of the neighbours. */
const restAtLeast = 3;

/**
 * The interval of each onset for the share that its notes fill: its pace, unless a rest follows, which is a silence
 * longer than three times the interval of its neighbours: the two onsets ahead of it, by their own intervals, and the two behind
 * it, by their paces; the longest counts, so that a dotted rhythm has no rest in it. Own choice, of several that were
 * tried on open performances: players do not hold a note longer because a rest is long.
 */
export function shareIntervals(onsets: readonly Onset[]): readonly ShareInterval[] {
  const intervals: ShareInterval[] = [];
  onsets.forEach(({ pace, top }, index) => {
    const ahead = intervals.slice(-2).map(({ ms }) => ms);
    // The last has no pace of its own.
    const behind = onsets.slice(index + 1, Math.min(index + 3, onsets.length - 1)).map((one) => one.pace.ms);
    const neighbours = Math.max(...ahead, ...behind);
    const isLast = index === onsets.length - 1;
    const isBeforeRest =
      Number.isFinite(neighbours) && (isLast || top.restAfter.ms > restAtLeast * neighbours);
    intervals.push({ ms: isBeforeRest ? neighbours : pace.ms, isBeforeRest });
  });
  return intervals;
}

/** The share of its interval that a note fills; 1 for the whole. Of no interval at all, everything is filled. */
export function shareOf(
  { held, pace }: Pick<MeasuredNote, 'held' | 'pace'>,
  { ms, isBeforeRest }: ShareInterval = { ms: pace.ms, isBeforeRest: false },
): number {
  if (ms === 0) return 1;
  const share = held.ms / ms;
  return isBeforeRest ? Math.min(1, share) : share;
}
