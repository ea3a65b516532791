import { movedApart } from './apart.js';

/** A chord or a single note, and where it belongs. */
export interface PulledOnset {
  /** The tick that stands for the chord: its earliest note. */
  readonly tick: number;
  /** Its place on the grid, in ticks (may lie between two); null where it has none and stays. */
  readonly place: number | null;
  /** The ticks of its notes. */
  readonly notes: readonly number[];
}

/**
 * Moves each onset a share of the way to its place: 0 leaves everything as it was, 1 puts the onset on the tick
 * nearest to its place. All notes of a chord move alike, so that its spread stays. An onset that would come onto or
 * past the next is moved only as far as there is a tick left between them.
 *
 * @param onsets in order, their places too
 * @param share 0 to 1
 * @returns the new ticks of each onset's notes
 */
export function pull(onsets: readonly PulledOnset[], share: number): readonly (readonly number[])[] {
  const places = movedApart(
    onsets.map((onset) => ({
      first: onset.tick,
      last: onset.notes.reduce((latest, note) => Math.max(latest, note), onset.tick),
      wanted: pulledTo(onset, share),
    })),
  );
  return onsets.map(({ tick, notes }, index) => {
    const shift = (places[index] ?? tick) - tick;
    return notes.map((note) => note + shift);
  });
}

/** Where an onset is wanted. */
export function pulledTo({ tick, place }: Pick<PulledOnset, 'tick' | 'place'>, share: number): number {
  return place === null ? tick : Math.round(tick + share * (place - tick));
}
