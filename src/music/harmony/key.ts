import { belongs, type KeyChord } from './belonging.js';
import { bestKeyPath, indexOfBest } from './key-path.js';
import { keyOf, keys } from './keys.js';
import { profiles } from './profiles.js';
import type { Key } from './types.js';

/** A stretch as key finding sees it. */
export interface KeyEvidence {
  /** In quarter notes. */
  readonly length: number;
  /** For each pitch class the share of the time through which it sounds. */
  readonly classes: readonly number[];
  /** Of a chord that tells a mode. */
  readonly chord: KeyChord | null;
}

/** What the tones count that sound, to what the chord counts: their fit to the profile of a key, 1 at most. */
const tones = 1.6;
/** What the home key is given, in every stretch, and where the music begins and ends. */
const home = 0.1;
const homeEdge = 0.8;
/** What a tonic chord adds to a key's fit to the whole, where the music begins with it, and where it ends. */
const opening = 0.5;
const closing = 0.4;
/** Of that, what a major chord adds that ends a piece in minor. */
const picardy = 0.8;

/**
 * The key of each stretch: how well its tones fit the profile of each key (C. L. Krumhansl, Cognitive Foundations of
 * Musical Pitch, 1990, chapter 4) and its chord belongs there, and the best path through the stretches, in which changes
 * cost the more the farther they go. The home key, which fits the whole best and in which it begins or ends, comes first.
 * Figures are our own, set like those of chords in a key. Takes time in proportion to the stretches.
 */
export function keysOf(evidence: readonly KeyEvidence[]): readonly Key[] {
  if (evidence.length === 0) return [];
  const weights = weightsOf(evidence);
  const fits = fitsOf(evidence, weights);
  const homeKey = homeOf(evidence, fits);
  weights.forEach((weight, index) => {
    const edges = Number(index === 0) + Number(index === weights.length - 1);
    const at = index * keys.length + homeKey;
    fits[at] = (fits[at] ?? 0) + (home * weight + homeEdge * edges);
  });
  return Array.from(bestKeyPath(fits), (index) => keys[index] ?? cMajor);
}

/**
 * Long chords count more than short ones, but not by their length: a chord is a chord. And in slow music as in fast: the
 * mean length counts 1.
 */
function weightsOf(evidence: readonly KeyEvidence[]): readonly number[] {
  const mean = evidence.reduce((sum, { length }) => sum + length, 0) / evidence.length;
  return evidence.map(({ length }) => Math.sqrt(length / mean));
}

/** How well each of the 24 keys fits each stretch, one stretch after another. */
function fitsOf(evidence: readonly KeyEvidence[], weights: readonly number[]): Float64Array {
  const fits = new Float64Array(evidence.length * keys.length);
  evidence.forEach(({ classes, chord }, index) => {
    const sounding = classes.reduce((sum, share) => sum + share, 0) || 1;
    keys.forEach((key, number) => {
      const profile = even[key.mode];
      let fit = 0;
      for (let at = 0; at < 12; at++) fit += (classes[at] ?? 0) * (profile[(at + 12 - key.tonic) % 12] ?? 0);
      fits[index * keys.length + number] =
        (weights[index] ?? 0) * ((tones * fit) / sounding + belongs(chord, key));
    });
  });
  return fits;
}

const cMajor = keyOf(0, 'major');

/** The profiles with mean 0 and length 1, so that fits of both modes compare. */
const even = { major: evened(profiles.major), minor: evened(profiles.minor) };

function evened(profile: readonly number[]): readonly number[] {
  const mean = profile.reduce((sum, value) => sum + value, 0) / profile.length;
  const length = Math.hypot(...profile.map((value) => value - mean));
  return profile.map((value) => (value - mean) / length);
}

function homeOf(evidence: readonly KeyEvidence[], fits: Float64Array): number {
  const sums = new Float64Array(keys.length);
  fits.forEach((fit, at) => {
    sums[at % keys.length] = (sums[at % keys.length] ?? 0) + fit;
  });
  const [first, last] = [evidence[0]?.chord, evidence.at(-1)?.chord];
  return indexOfBest(
    keys.map((key, index) => {
      const mean = (sums[index] ?? 0) / evidence.length;
      return mean + opening * Number(isTonic(first, key)) + closing * closes(last, key);
    }),
  );
}

function isTonic(chord: KeyChord | null | undefined, { tonic, mode }: Key): boolean {
  return chord?.root === tonic && chord.quality === mode;
}

function closes(chord: KeyChord | null | undefined, key: Key): number {
  if (isTonic(chord, key)) return 1;
  return key.mode === 'minor' && chord?.root === key.tonic && chord.quality === 'major' ? picardy : 0;
}
