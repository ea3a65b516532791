import type { Neighbours, Voicing } from './types.js';

const octave = 12;

/** The intervals between neighbouring pitches, low to high. */
export function neighboursOf(pitches: readonly number[]): readonly Neighbours[] {
  return pitches.slice(1).map((upper, index) => {
    const lower = pitches[index] ?? upper;
    return { lower, upper, semitones: upper - lower };
  });
}

/**
 * Close position: the upper three voices span less than an octave; open position: an octave or more (J. Rushton,
 * "Spacing", New Grove Dictionary of Music). Of three pitches all count. Of more than four, each three neighbouring
 * upper voices are looked at: at least half of them less than an octave is close position, an extension of this program
 * that leaves four voices as in the books.
 *
 * @returns null for fewer than three pitches
 */
export function positionOf(pitches: readonly number[]): Voicing['kind'] {
  if (pitches.length < 3) return null;
  const upper = pitches.length === 3 ? pitches : pitches.slice(1);
  const reaches = upper.slice(2).map((top, index) => top - (upper[index] ?? top));
  const within = reaches.filter((reach) => reach < octave).length;
  return within * 2 >= reaches.length ? 'close' : 'open';
}

/**
 * The interval that a chord is built of: fourths and fifths, or seconds, where more than half of the intervals between
 * neighbours are such (octaves are none of them); thirds where at least half are, which holds for a triad in close
 * position with each of its tones in the bass.
 */
export function builtOf(spacing: readonly number[]): Voicing['built'] {
  const counted = spacing.filter((semitones) => semitones % octave !== 0);
  const share = (of: readonly number[]) =>
    counted.length === 0 ? 0 : counted.filter((semitones) => of.includes(semitones)).length / counted.length;
  if (share([5, 7]) > 0.5) return 'fourths and fifths';
  if (share([1, 2]) > 0.5) return 'seconds';
  return share([3, 4]) >= 0.5 ? 'thirds' : 'mixed';
}

/** Octaves, fifths or fourths with nothing else; a fourth is a fifth whose upper tone lies in the bass. */
export function bareOf(pitches: readonly number[]): Voicing['bare'] {
  const bass = pitches[0] ?? 0;
  const above = new Set(pitches.map((pitch) => (pitch - bass) % octave));
  above.delete(0);
  if (above.size === 0) return 'octaves';
  if (above.size > 1) return null;
  return above.has(7) ? 'fifths' : above.has(5) ? 'fourths' : null;
}

/**
 * More than an octave between neighbouring upper voices. Between the bass and the next voice more is usual, also above
 * octaves of the bass that lie on it (common practice, no source).
 */
export function gapsOf(neighbours: readonly Neighbours[]): readonly Neighbours[] {
  const aboveBass = neighbours.findIndex(({ semitones }) => semitones !== octave);
  return neighbours.filter(({ semitones }, index) => index > aboveBass && semitones > octave);
}
