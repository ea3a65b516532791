import type { MeasuredNote, Onset } from '../../midi/index.js';

/** What the notes of an onset are measured against. Unit: ms. */
export interface ShareInterval {
  readonly ms: number;
  /** A note before a rest overlaps nothing: it fills its interval at most. */
  readonly isBeforeRest: boolean;
}

/**
 * The interval of each onset for the share that its notes fill: its pace, unless a rest follows, which is a silence
 * longer than the interval of its neighbours. That is the greater of the interval of the onset ahead, which may itself
 * stand before a rest, and the pace of the onset behind, unless it is the last. Own choice: players do not hold a note
 * longer because a rest is long, and dotted rhythms have no rest in them.
 */
export function shareIntervals(onsets: readonly Onset[]): readonly ShareInterval[] {
  let ahead: number | undefined;
  return onsets.map(({ pace, top }, index) => {
    const isLast = index === onsets.length - 1;
    const behind = index + 2 < onsets.length ? onsets[index + 1]?.pace.ms : undefined;
    const neighbours = greater(ahead, behind);
    const isBeforeRest = neighbours !== undefined && (isLast || top.restAfter.ms > neighbours);
    const ms = isBeforeRest ? neighbours : pace.ms;
    ahead = ms;
    return { ms, isBeforeRest };
  });
}

function greater(one: number | undefined, other: number | undefined): number | undefined {
  return one === undefined ? other : Math.max(one, other ?? one);
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
