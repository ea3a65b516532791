/** For each note, how many of the same pitch stand before it at the same tick. */
export function occurrences(
  notes: readonly { readonly tick: number; readonly pitch: number }[],
): readonly number[] {
  const seen = new Map<number, number>();
  return notes.map(({ tick, pitch }) => {
    const place = tick * 128 + pitch;
    const before = seen.get(place) ?? 0;
    seen.set(place, before + 1);
    return before;
  });
}
