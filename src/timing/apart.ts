/** Chords and single notes in order, each of which moves as one, in columns. Ticks. */
export interface Movables {
  /** The first and the last note-on of each now. */
  readonly first: Float64Array;
  readonly last: Float64Array;
  /** Where its first note is wanted. */
  readonly wanted: Float64Array;
}

/**
 * Moves onsets as far towards where they are wanted as their order allows: two that are apart stay apart by a tick at
 * least, so that a switch can stand strictly behind the one and not behind the other. Each comes to stand between where
 * it is and where it is wanted; two that would meet share the room between them. Linear in onsets.
 *
 * @returns the new tick of each one's first note
 */
export function movedApart(onsets: Movables): Float64Array {
  const { first, wanted } = onsets;
  const places = wanted.map((tick) => Math.max(0, Math.round(tick)));
  const isLater = (index: number) => (places[index] ?? 0) > (first[index] ?? 0);
  for (let index = 0; index + 1 < places.length; index += 1)
    if (isLater(index) && !isLater(index + 1)) meet(places, index, onsets);
  for (let index = places.length - 2; index >= 0; index -= 1) {
    const latest = (places[index + 1] ?? 0) - gapBehind(onsets, index);
    if (isLater(index)) places[index] = Math.min(places[index] ?? 0, latest);
  }
  for (let index = 1; index < places.length; index += 1) {
    const earliest = (places[index - 1] ?? 0) + gapBehind(onsets, index - 1);
    if (!isLater(index)) places[index] = Math.max(places[index] ?? 0, earliest);
  }
  return places;
}

/** From an onset's first note to the next one's, at least: what lies on one tick may stay there. */
function gapBehind({ first, last }: Movables, index: number): number {
  const from = first[index] ?? 0;
  return Math.min((first[index + 1] ?? 0) - from, (last[index] ?? 0) - from + 1);
}

/** An onset moves later and the next one earlier: where they would meet, each gives way by half of it. */
function meet(places: Float64Array, index: number, onsets: Movables): void {
  const [left, right] = [places[index] ?? 0, places[index + 1] ?? 0];
  const [before, after] = [onsets.first[index] ?? 0, onsets.first[index + 1] ?? 0];
  const gap = gapBehind(onsets, index);
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
