import { boundedGaussianOf, type NoteKey } from './hash.js';

/** An onset that may be loosened, or that stands beside one. */
export interface LooseOnset {
  readonly key: NoteKey;
  /** Where it stands now, in milliseconds. */
  readonly ms: number;
  /** Where the last note of a chord stands; as `ms` where absent. */
  readonly lastMs?: number;
  /**
   * The end of its bar; endless where there are no bars. The interval is measured no further, so that what
   * happens in the next bar changes nothing in this one. An onset just ahead of a barline belongs to the next bar.
   */
  readonly barEndMs: number;
  /** Whether it is to be moved: a single note that stands too exactly on the grid. */
  readonly exact: boolean;
}

/**
 * The standard deviation as a share of the time to the next onset. Friberg & Sundberg (1995), Time discrimination
 * in a monotonic, isochronous sequence, JASA 98: a displacement is just noticed at about 2.5 % of the interval
 * (below 240 ms between onsets it stays at about 6 ms, so that a fast run, loosened by less, still sounds even).
 */
export const intervalShare = 0.025;

/** How much of the time to a neighbouring onset may be used; two neighbours together stay below the whole. */
const ROOM_SHARE = 0.4;

/**
 * Moves single notes that are too exactly on the grid off it by a normally distributed offset. Its standard
 * deviation is a share of the interval to the next onset, and never more than the option, so that slow passages
 * are loosened more than fast ones. Onsets never change their order.
 *
 * @param onsets in order
 * @param sdMs the bound on the standard deviation, in milliseconds
 * @returns each onset's offset in milliseconds, negative is early; 0 for those that stay
 */
export function loosen(onsets: readonly LooseOnset[], sdMs: number): readonly number[] {
  return onsets.map((onset, index) => {
    if (!onset.exact) return 0;
    const previous = onsets[index - 1];
    const before = onset.ms - (previous?.lastMs ?? previous?.ms ?? Number.NEGATIVE_INFINITY);
    const after = (onsets[index + 1]?.ms ?? Number.POSITIVE_INFINITY) - onset.ms;
    const interval = Math.max(0, Math.min(after, onset.barEndMs - onset.ms));
    const offset = Math.min(sdMs, intervalShare * interval) * boundedGaussianOf(onset.key, 'loosen');
    return Math.max(-ROOM_SHARE * before, Math.min(ROOM_SHARE * after, offset));
  });
}
