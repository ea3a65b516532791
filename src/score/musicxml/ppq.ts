/** What a Standard MIDI File can say in its 15 bits (RP-001, division). */
const mostPpq = 0x7fff;
/** Divides by 2, 3, 5 and 7, for scores whose divisions have no common multiple in reach. */
const fallback = 10080;
const least = 480;

/** Ticks of a quarter note in which every one of the divisions comes out whole, at least 480. */
export function ppqOf(divisions: readonly number[]): number {
  let common = 1;
  for (const one of divisions) {
    if (!Number.isInteger(one) || one < 1) return fallback;
    common = (common / greatestDivisor(common, one)) * one;
    if (common > mostPpq) return fallback;
  }
  // a multiple that sixteenths' thirds fit into, if there is one
  for (const factor of [24, 12, 8, 4, 3, 2, 1]) {
    const unit = (common / greatestDivisor(common, factor)) * factor;
    const ppq = unit * Math.ceil(least / unit);
    if (ppq <= mostPpq) return ppq;
  }
  return common;
}

function greatestDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestDivisor(b, a % b);
}
