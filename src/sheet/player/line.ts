import { lastAtMost, lastWithin } from '../../midi/index.js';

/** A head on the page, and when its note is heard. */
export interface Anchor {
  readonly ms: number;
  /** The index of its system on the page. */
  readonly system: number;
  /** In units of the system. */
  readonly x: number;
}

/** Where the line stands. */
export interface LinePlace {
  readonly system: number;
  readonly x: number;
}

/**
 * The anchors that a line can follow: one at a time, the leftmost of those heard together, and never back within a
 * system. A head that stands before one that was heard earlier (an early note of a chord, say) is passed over.
 */
export function ordered(anchors: readonly Anchor[]): readonly Anchor[] {
  const kept: Anchor[] = [];
  const rising = [...anchors].sort((a, b) => a.ms - b.ms || a.system - b.system || a.x - b.x);
  for (const anchor of rising) {
    const last = kept.at(-1);
    const isAhead =
      !last || anchor.system > last.system || (anchor.system === last.system && anchor.x > last.x);
    if (isAhead && anchor.ms !== last?.ms) kept.push(anchor);
  }
  return kept;
}

/** A bar in which nothing begins so near to its beginning leads the line by its own left edge. Unit: ms. */
const empty = 150;

/** The beginnings of bars at which no head leads the line, so that it comes to systems in which notes are only held. */
export function barAnchors(heads: readonly Anchor[], bars: readonly Anchor[]): readonly Anchor[] {
  const times = heads.map(({ ms }) => ms).sort((a, b) => a - b);
  return bars.filter(({ ms }) => {
    const last = lastAtMost(times, ms);
    return [times[last], times[last + 1]].every((time) => time === undefined || Math.abs(time - ms) > empty);
  });
}

/**
 * Where the line stands at a time: between two heads of a system in proportion; behind a system's last head on the way to
 * its right end, which it reaches when the next system begins. undefined where there are no heads.
 *
 * @param anchors as `ordered` gives them
 * @param endMs when the sound ends
 * @param rightOf the right end of a system, in its units
 */
export function lineAt(
  anchors: readonly Anchor[],
  ms: number,
  endMs: number,
  rightOf: (system: number) => number,
): LinePlace | undefined {
  const last = lastWithin(anchors.length, (index) => anchors[index]?.ms ?? 0, ms);
  const [before, behind] = [anchors[last], anchors[last + 1]];
  if (!before) return behind && { system: behind.system, x: behind.x };
  const isSame = behind?.system === before.system;
  const toX = isSame ? behind.x : rightOf(before.system);
  const toMs = behind?.ms ?? Math.max(endMs, before.ms);
  const share = toMs > before.ms ? Math.min(1, (ms - before.ms) / (toMs - before.ms)) : 0;
  return { system: before.system, x: before.x + share * (toX - before.x) };
}
