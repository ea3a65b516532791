import { belongs, type KeyChord } from './belonging.js';
import { mod } from './fifths.js';
import { keys } from './keys.js';
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
/** What a change of key costs, and what each step costs that it goes along the circle of fifths. */
const change = 0.8;
const fifth = 0.2;
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
  const fits = evidence.map((one, index) => fitOf(one, weights[index] ?? 0));
  const homeKey = homeOf(evidence, fits);
  const steps = fits.map((fit, index) => {
    const edges = Number(index === 0) + Number(index === fits.length - 1);
    const more = home * (weights[index] ?? 0) + homeEdge * edges;
    return fit.map((value, key) => (key === homeKey ? value + more : value));
  });
  return bestPath(steps).flatMap((index) => keys[index] ?? []);
}

/**
 * Long chords count more than short ones, but not by their length: a chord is a chord. And in slow music as in fast: the
 * mean length counts 1.
 */
function weightsOf(evidence: readonly KeyEvidence[]): readonly number[] {
  const mean = evidence.reduce((sum, { length }) => sum + length, 0) / evidence.length;
  return evidence.map(({ length }) => Math.sqrt(length / mean));
}

/** How well each of the 24 keys fits a stretch. */
function fitOf({ classes, chord }: KeyEvidence, weight: number): readonly number[] {
  const sounding = classes.reduce((sum, share) => sum + share, 0) || 1;
  return keys.map((key) => {
    const profile = even[key.mode];
    const fit = classes.reduce((sum, share, at) => sum + share * (profile[mod(at - key.tonic, 12)] ?? 0), 0);
    return weight * ((tones * fit) / sounding + belongs(chord, key));
  });
}

/** The profiles with mean 0 and length 1, so that fits of both modes compare. */
const even = { major: evened(profiles.major), minor: evened(profiles.minor) };

function evened(profile: readonly number[]): readonly number[] {
  const mean = profile.reduce((sum, value) => sum + value, 0) / profile.length;
  const length = Math.hypot(...profile.map((value) => value - mean));
  return profile.map((value) => (value - mean) / length);
}

function homeOf(evidence: readonly KeyEvidence[], fits: readonly (readonly number[])[]): number {
  const sums = fits.reduce<readonly number[]>(
    (sum, fit) => sum.map((value, key) => value + (fit[key] ?? 0)),
    keys.map(() => 0),
  );
  const [first, last] = [evidence[0]?.chord, evidence.at(-1)?.chord];
  return indexOfBest(
    keys.map((key, index) => {
      const mean = (sums[index] ?? 0) / fits.length;
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

/** What it costs to go from each key to each other one. */
const costs: readonly (readonly number[])[] = keys.map((from) =>
  keys.map((to) => {
    const steps = mod(from.fifths - to.fifths, 12);
    return from === to ? 0 : change + fifth * Math.min(steps, 12 - steps);
  }),
);

/** The key of each step on the path of highest sum (A. J. Viterbi, 1967). */
function bestPath(steps: readonly (readonly number[])[]): readonly number[] {
  let reached: readonly number[] = keys.map(() => 0);
  const before = steps.map((here, index) => {
    const from = keys.map((_, key) =>
      index === 0 ? key : indexOfBest(reached.map((score, other) => score - (costs[other]?.[key] ?? 0))),
    );
    reached = here.map((value, key) => {
      const other = from[key] ?? key;
      return value + (reached[other] ?? 0) - (costs[other]?.[key] ?? 0);
    });
    return from;
  });
  const path: number[] = [];
  let key = indexOfBest(reached);
  for (const from of before.reverse()) {
    path.push(key);
    key = from[key] ?? key;
  }
  return path.reverse();
}

function indexOfBest(values: readonly number[]): number {
  return values.reduce((best, value, index) => (value > (values[best] ?? 0) ? index : best), 0);
}
