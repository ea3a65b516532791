import { mod } from './fifths.js';
import type { Key } from './types.js';

/** What tells chords apart as to the keys that they belong to: their triad, and a dominant's seventh. */
export type Quality = 'major' | 'dominant' | 'minor' | 'diminished';

/** A chord as key finding sees it. */
export interface KeyChord {
  readonly root: number;
  readonly quality: Quality;
}

type Degrees = Readonly<Partial<Record<Quality, Readonly<Record<number, number>>>>>;

/** A chord that a key has no place for. */
const foreign = -0.4;

/**
 * How much a chord speaks for a key, by its root's semitones above the tonic: tonic and dominant most, then the other
 * chords of the scale, then those that are commonly borrowed from the other mode (the major chord of the fourth degree,
 * and the tonic at the end of a piece in minor), then dominants of other degrees. Which these are is common practice of
 * harmony teaching, no source; the figures are our own, set on analysed chorales by J. S. Bach and shown on others.
 */
const belonging: Readonly<Record<Key['mode'], Degrees>> = {
  major: {
    major: { 0: 1, 7: 1, 5: 0.7, 8: 0.2, 10: 0.2, 3: 0.2, 1: 0.2, 2: 0.1, 9: 0.1, 4: 0.1 },
    dominant: { 7: 1, 2: 0.1, 9: 0.1, 4: 0.1 },
    minor: { 2: 0.7, 9: 0.6, 4: 0.6, 5: 0.2 },
    diminished: { 11: 0.6 },
  },
  minor: {
    major: { 7: 1, 8: 0.6, 3: 0.4, 10: 0.4, 5: 0.4, 0: 0.4, 1: 0.2 },
    dominant: { 7: 1, 10: 0.1, 0: 0.1, 2: 0.1, 3: 0.1 },
    minor: { 0: 1, 5: 0.7, 7: 0.2 },
    diminished: { 2: 0.7, 11: 0.6 },
  },
};

/** How much a chord speaks for a key; nothing where there is none, or where it tells no mode. */
export function belongs(chord: KeyChord | null, { tonic, mode }: Key): number {
  if (!chord) return 0;
  return belonging[mode][chord.quality]?.[mod(chord.root - tonic, 12)] ?? foreign;
}

/** A chord by the intervals above its root; null where it has no third, or a raised fifth. */
export function qualityOf(intervals: readonly number[]): Quality | null {
  const has = (interval: number) => intervals.includes(interval);
  if (has(4)) return has(8) ? null : has(10) ? 'dominant' : 'major';
  if (!has(3)) return null;
  return has(6) && !has(7) ? 'diminished' : 'minor';
}
