/** A chord that was found: its place in the score, and when it was played. */
export interface Anchor {
  readonly chord: number;
  readonly time: number;
  readonly ms: number;
  /** How many of its notes were found. */
  readonly size: number;
}

/** Anchors to either side from which the tempo at one is taken. */
const around = 4;
/** An anchor this far off the line of those around it is doubted: a share of a chord's usual distance, at least so many ms. */
const farthestShare = 0.6;
const farthestMs = 120;

/**
 * Anchors without those that the tempo around them speaks against, and for another place. A note of several alike may
 * have been taken for its neighbour, which order alone cannot tell. The tempo is the line through the anchors around:
 * the median of the slopes between any two of them (Theil 1950, Sen 1968), which a few wrong ones do not bend.
 *
 * @param rivalsOf the other places of the score that an anchor's note may be; none where there is no doubt
 */
export function steadyAnchors(
  anchors: readonly Anchor[],
  rivalsOf: (anchor: Anchor) => readonly number[],
): readonly Anchor[] {
  return anchors.filter((anchor, index) => {
    const rivals = rivalsOf(anchor);
    const near = anchors.slice(Math.max(0, index - around), index + around + 1);
    if (rivals.length === 0 || near.length < 5) return true;
    const line = lineThrough(near);
    const distance = (line(near.at(-1)?.time ?? 0) - line(near[0]?.time ?? 0)) / (near.length - 1);
    const off = Math.abs(anchor.ms - line(anchor.time));
    const isFar = off > Math.max(farthestMs, farthestShare * distance);
    return !isFar || !rivals.some((time) => Math.abs(anchor.ms - line(time)) < off / 2);
  });
}

function lineThrough(anchors: readonly Anchor[]): (time: number) => number {
  const slopes = anchors.flatMap((a, first) =>
    anchors.slice(first + 1).map((b) => (b.ms - a.ms) / (b.time - a.time)),
  );
  const slope = median(slopes);
  const start = median(anchors.map(({ time, ms }) => ms - slope * time));
  return (time) => start + slope * time;
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = (sorted.length - 1) / 2;
  return ((sorted[Math.floor(middle)] ?? 0) + (sorted[Math.ceil(middle)] ?? 0)) / 2;
}
