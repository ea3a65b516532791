import { movedApart } from './apart.js';

/** Chords and single notes in order, and where they belong, in columns. */
export interface PulledOnsets {
  /** The tick that stands for a chord: its earliest note. */
  readonly first: Float64Array;
  /** The tick of its latest note. */
  readonly last: Float64Array;
  /** Its place on the grid, in ticks (may lie between two); NaN where it has none and stays. In order, too. */
  readonly place: Float64Array;
}

/**
 * Moves each onset a share of the way to its place: 0 leaves everything as it was, 1 puts the onset on the tick
 * nearest to its place. All notes of a chord move alike, so that its spread stays. An onset that would come onto or
 * past the next is moved only as far as there is a tick left between them.
 *
 * @param share 0 to 1
 * @returns the new tick of each onset's first note
 */
export function pull(onsets: PulledOnsets, share: number): Float64Array {
  const { first, last, place } = onsets;
  const wanted = first.map((tick, onset) => pulledTo(tick, place[onset] ?? Number.NaN, share));
  return movedApart({ first, last, wanted });
}

/** Where an onset is wanted. */
export function pulledTo(tick: number, place: number, share: number): number {
  return Number.isNaN(place) ? tick : Math.round(tick + share * (place - tick));
}
