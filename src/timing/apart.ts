/** A chord or a single note that moves as one. Ticks. */
export interface Movable {
  /** Its first and its last note-on now. */
  readonly first: number;
  readonly last: number;
  /** Where its first note is wanted. */
  readonly wanted: number;
}

/**
 * Moves onsets as far towards where they are wanted as their order allows: two that are apart stay apart by a tick at
 * least, so that a switch can stand strictly behind the one and not behind the other. Each comes to stand between where
 * it is and where it is wanted; two that would meet share the room between them. Linear in onsets.
 *
 * @param onsets in order
 * @returns the new tick of each one's first note
 */
export function movedApart(onsets: readonly Movable[]): readonly number[] {
  const places = onsets.map(({ wanted }) => Math.max(0, Math.round(wanted)));
  const gaps = onsets.map((onset, index) => gapBehind(onset, onsets[index + 1]));
  const isLater = (index: number) => (places[index] ?? 0) > (onsets[index]?.first ?? 0);
  for (let index = 0; index + 1 < places.length; index += 1) {
    const [before, after] = [onsets[index], onsets[index + 1]];
    if (before && after && isLater(index) && !isLater(index + 1))
      meet(places, index, gaps[index] ?? 0, before.first, after.first);
  }
  for (let index = places.length - 2; index >= 0; index -= 1) {
    const latest = (places[index + 1] ?? 0) - (gaps[index] ?? 0);
    if (isLater(index)) places[index] = Math.min(places[index] ?? 0, latest);
  }
  for (let index = 1; index < places.length; index += 1) {
    const earliest = (places[index - 1] ?? 0) + (gaps[index - 1] ?? 0);
    if (!isLater(index)) places[index] = Math.max(places[index] ?? 0, earliest);
  }
  return places;
}

/** From one onset's first note to the next's, at least: what lies on one tick may stay there. */
function gapBehind({ first, last }: Movable, next: Movable | undefined): number {
  return next ? Math.min(next.first - first, last - first + 1) : 0;
}

/** One onset moves later and the next earlier: where they would meet, each gives way by half of it. */
function meet(places: number[], index: number, gap: number, before: number, after: number): void {
  const [left, right] = [places[index] ?? 0, places[index + 1] ?? 0];
  if (left + gap <= right) return;
  const middle = Math.floor((left + right - gap) / 2);
  places[index] = Math.max(before, Math.min(middle, after - gap));
  places[index + 1] = (places[index] ?? 0) + gap;
}

/**
 * The ticks that an onset may use of the room to a neighbour that moves too: a share of it, and always so little that a
 * tick is left between the two, however they round.
 *
 * @param room ticks between them; 0 where they lie on one tick
 */
export function shareOfRoom(room: number, share: number): number {
  return Math.max(0, Math.min(Math.floor(share * room), Math.floor((room - 1) / 2)));
}
