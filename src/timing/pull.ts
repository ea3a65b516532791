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
 * nearest to its place. All notes of a chord move alike, so that its spread stays; only a note that would then
 * come after the next chord's first note is held back to it, so that the order stays.
 *
 * @param onsets in order, their places too
 * @param share 0 to 1
 * @returns the new ticks of each onset's notes
 */
export function pull(onsets: readonly PulledOnset[], share: number): readonly (readonly number[])[] {
  const shifts = onsets.map(({ tick, place }) =>
    place === null ? 0 : Math.round(tick + share * (place - tick)) - tick,
  );
  return onsets.map(({ notes }, index) => {
    const shift = shifts[index] ?? 0;
    const next = onsets[index + 1];
    const limit = next ? next.tick + (shifts[index + 1] ?? 0) : Number.POSITIVE_INFINITY;
    return notes.map((tick) => Math.min(tick + shift, limit));
  });
}
