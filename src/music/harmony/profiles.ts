/**
 * How well each degree of the chromatic scale fits a key, from the tonic on, as listeners judged it: C. L. Krumhansl,
 * E. J. Kessler, "Tracing the dynamic changes in perceived tonal organization in a spatial representation of musical
 * keys", Psychological Review 89(4), 1982. 24 measured means, of which no licence is needed; music21 (BSD) prints the same.
 */
export const profiles: Readonly<Record<'major' | 'minor', readonly number[]>> = {
  major: [6.35, 2.23, 3.48, 2.33, 4.38, 4.09, 2.52, 5.19, 2.39, 3.66, 2.29, 2.88],
  minor: [6.33, 2.68, 3.52, 5.38, 2.6, 3.53, 2.54, 4.75, 3.98, 2.69, 3.34, 3.17],
};
