import { type Figure, type FoundGrid, findGrid, type PlayedOnsets } from '../../src/timing/grid/index.js';

/** Performances of made-up rhythms, with what each beat was meant to be. Every name is given by hand here. */
export type Kind = 'straight' | 'triplet' | 'dotted' | 'mixed' | 'sextuplet' | 'thirty-second';
export type Jitter = { readonly kind: 'uniform' | 'gaussian'; readonly ms: number };

interface Pattern {
  readonly figure: Figure;
  /** Places in the beat, 0 to below 1. */
  readonly places: readonly number[];
  readonly weight: number;
}

export interface TrueBeat {
  readonly beat: number;
  readonly figure: Figure;
  /** Indices of its onsets. */
  readonly onsets: readonly number[];
}

export interface Played {
  readonly onsets: PlayedOnsets;
  /** Where each onset was meant. */
  readonly places: readonly number[];
  /** Beats that have onsets. */
  readonly beats: readonly TrueBeat[];
}

const of = (figure: Figure, weight: number, parts: number, ...steps: number[]): Pattern => ({
  figure,
  weight,
  places: steps.map((step) => step / parts),
});

const PATTERNS: Readonly<Record<Exclude<Kind, 'mixed'>, readonly Pattern[]>> = {
  straight: [
    of('beat', 2, 1, 0),
    of('eighths', 3, 2, 0, 1),
    of('eighths', 1, 2, 1),
    of('sixteenths', 3, 4, 0, 1, 2, 3),
    of('sixteenths', 1, 4, 0, 2, 3),
    of('sixteenths', 1, 4, 0, 1, 2),
    of('sixteenths', 1, 4, 1, 2, 3),
  ],
  triplet: [
    of('triplets', 4, 3, 0, 1, 2),
    of('triplets', 2, 3, 0, 2),
    of('triplets', 1, 3, 0, 1),
    of('triplets', 1, 3, 1, 2),
    of('beat', 1, 1, 0),
  ],
  dotted: [
    of('dotted', 4, 4, 0, 3),
    of('dotted', 2, 4, 0, 1),
    of('dotted', 1, 4, 3),
    of('beat', 2, 1, 0),
    of('eighths', 1, 2, 0, 1),
    of('eighths', 1, 2, 1),
  ],
  sextuplet: [
    of('sextuplets', 4, 6, 0, 1, 2, 3, 4, 5),
    of('sextuplets', 1, 6, 0, 3, 4, 5),
    of('sextuplets', 1, 6, 0, 1, 2, 3),
    of('beat', 1, 1, 0),
    of('sixteenths', 1, 4, 0, 1, 2, 3),
  ],
  'thirty-second': [
    of('thirty-seconds', 4, 8, 0, 1, 2, 3, 4, 5, 6, 7),
    of('thirty-seconds', 1, 8, 0, 4, 5, 6, 7),
    of('thirty-seconds', 1, 8, 0, 1, 2, 3, 4),
    of('beat', 1, 1, 0),
    of('sixteenths', 1, 4, 0, 1, 2, 3),
  ],
};

/** Kinds of a mixed performance: stretches of one to four beats each. */
const MIXED = ['straight', 'straight', 'triplet', 'triplet', 'dotted', 'dotted', 'sextuplet'] as const;

/** The share of beats in which nothing is struck. */
const RESTS = 0.05;

/** One performance; the same for the same arguments. */
export function perform(kind: Kind, bpm: number, jitter: Jitter, beats: number, seed: number): Played {
  const random = generator(seed);
  const msPerBeat = 60_000 / bpm;
  const onsets: number[] = [];
  const places: number[] = [];
  const trueBeats: TrueBeat[] = [];
  let stretch: Exclude<Kind, 'mixed'> = kind === 'mixed' ? 'straight' : kind;
  let left = 0;
  // the first beat is left free, so that no onset falls before the file
  for (let beat = 1; beat <= beats; beat += 1) {
    if (kind === 'mixed' && left === 0) {
      stretch = MIXED[Math.floor(random() * MIXED.length)] ?? 'straight';
      left = 1 + Math.floor(random() * 4);
    }
    left -= 1;
    if (random() < RESTS) continue;
    const pattern = pick(PATTERNS[stretch], random);
    const first = onsets.length;
    for (const place of pattern.places) {
      places.push(beat + place);
      onsets.push(beat + place + offset(jitter, random) / msPerBeat);
    }
    trueBeats.push({
      beat,
      figure: pattern.figure,
      onsets: pattern.places.map((_, index) => first + index),
    });
  }
  return { onsets: evenly(msPerBeat, onsets), places, beats: trueBeats };
}

/** Onsets in beats that all last as long. */
export function evenly(msPerBeat: number, beats: readonly number[]): PlayedOnsets {
  return {
    beats: Float64Array.from(beats),
    msPerBeat: new Float64Array(beats.length).fill(msPerBeat),
  };
}

/** How many beats of a performance a found grid has right: every onset on its true place, and the true name. */
export function beatsRight(played: Played, found: FoundGrid): number {
  const names = new Map(found.beats.map((beat) => [beat.beat, beat.figure]));
  return played.beats.filter(
    (beat) =>
      names.get(beat.beat) === beat.figure &&
      beat.onsets.every((onset) => Math.abs((found.places[onset] ?? 0) - (played.places[onset] ?? 0)) < 1e-9),
  ).length;
}

/** Seeds to choose the model's costs by, and others that were never looked at while choosing. */
export const tuningSeeds: readonly number[] = Array.from({ length: 10 }, (_, index) => 1000 + index);
export const heldBackSeeds: readonly number[] = Array.from(
  { length: 20 },
  (_, index) => 770_001 + 13 * index,
);

export const tempi: readonly number[] = [60, 80, 100, 120, 140, 160, 180];
export const kinds: readonly Kind[] = [
  'straight',
  'triplet',
  'dotted',
  'mixed',
  'sextuplet',
  'thirty-second',
];
export const uniform15: Jitter = { kind: 'uniform', ms: 15 };
export const gaussian8: Jitter = { kind: 'gaussian', ms: 8 };

export interface Cell {
  readonly kind: Kind;
  readonly bpm: number;
  readonly beats: number;
  readonly right: number;
}

/** How many beats are right, for each kind and tempo. */
export function gridTable(seeds: readonly number[], jitter: Jitter, beatsEach = 64): readonly Cell[] {
  return kinds.flatMap((kind) =>
    tempi.map((bpm) => {
      let beats = 0;
      let right = 0;
      for (const seed of seeds) {
        const played = perform(kind, bpm, jitter, beatsEach, seed * 1009 + bpm);
        beats += played.beats.length;
        right += beatsRight(played, findGrid(played.onsets));
      }
      return { kind, bpm, beats, right };
    }),
  );
}

function pick(patterns: readonly Pattern[], random: () => number): Pattern {
  const total = patterns.reduce((sum, pattern) => sum + pattern.weight, 0);
  let at = random() * total;
  for (const pattern of patterns) {
    at -= pattern.weight;
    if (at < 0) return pattern;
  }
  return of('beat', 1, 1, 0);
}

function offset(jitter: Jitter, random: () => number): number {
  if (jitter.kind === 'uniform') return (2 * random() - 1) * jitter.ms;
  return jitter.ms * Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

/** Park & Miller 1988, minimal standard: 48271 · x mod (2³¹ − 1), after a few steps to part near seeds. */
function generator(seed: number): () => number {
  let state = (seed % 2147483646) + 1;
  const next = () => {
    state = (state * 48271) % 2147483647;
    return (state - 1) / 2147483646;
  };
  for (let i = 0; i < 5; i += 1) next();
  return next;
}
