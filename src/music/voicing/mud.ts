import type { LowInterval, Neighbours } from './types.js';

/**
 * The lowest usable lower note of narrow intervals, minor second to fourth, as MIDI notes: the low-interval limits of
 * arrangers (common practice, no source; books differ by a semitone or two).
 */
export const lowIntervalLimits: ReadonlyMap<number, number> = new Map([
  [1, 52], // minor second, E3
  [2, 51], // major second, E♭3
  [3, 48], // minor third, C3
  [4, 47], // major third, B2
  [5, 45], // fourth, A2
]);

/** Narrow intervals between neighbours that lie lower than they are clear. */
export function mudOf(neighbours: readonly Neighbours[]): readonly LowInterval[] {
  return neighbours.flatMap((pair) => {
    const limit = lowIntervalLimits.get(pair.semitones);
    return limit !== undefined && pair.lower < limit ? [{ ...pair, limit }] : [];
  });
}
