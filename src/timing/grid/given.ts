/**
 * The place of each onset on grids that were given rather than found: the nearest place of any of them. Where
 * two onsets are nearest to the same place, the nearer one has it (the earlier, where both are as near) and the
 * other has none, so that a coarse grid never makes a chord of a run.
 *
 * @param beats onsets in rising order, in beats of a quarter note
 * @param grids the width of each grid as a fraction of a whole note, counted from the start of the file
 * @returns for each onset its place in beats; NaN where it has none
 */
export function nearestGivenPlaces(
  beats: Float64Array,
  grids: readonly { readonly numerator: number; readonly denominator: number }[],
): Float64Array {
  const places = beats.map((beat) => nearest(beat, grids));
  let holder = -1;
  for (let index = 0; index < beats.length; index += 1) {
    const place = places[index] ?? Number.NaN;
    if (Number.isNaN(place)) continue;
    const held = places[holder] ?? Number.NaN;
    if (Math.abs(held - place) < SAME) {
      const nearer = Math.abs((beats[index] ?? 0) - place) < Math.abs((beats[holder] ?? 0) - held);
      places[nearer ? holder : index] = Number.NaN;
      if (!nearer) continue;
    }
    holder = index;
  }
  return places;
}

/** Places nearer than this (in beats) are one: 1/4 of 1/16 and 1/3 of 1/12 may differ in the last bit. */
const SAME = 1e-9;

function nearest(
  beat: number,
  grids: readonly { readonly numerator: number; readonly denominator: number }[],
): number {
  let best = Number.NaN;
  for (const { numerator, denominator } of grids) {
    const place = (Math.round((beat * denominator) / (4 * numerator)) * 4 * numerator) / denominator;
    if (Number.isNaN(best) || Math.abs(place - beat) < Math.abs(best - beat)) best = place;
  }
  return best;
}
