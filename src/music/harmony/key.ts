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
  /** Root and mode of a major or minor chord, with or without further tones. */
  readonly triad: { readonly root: number; readonly mode: 'major' | 'minor' } | null;
}

interface Block {
  readonly from: number;
  readonly to: number;
}

/** Music up to this length, in quarter notes, has one key. */
const shortPiece = 32;
/** Keys are asked for once in so many quarter notes, over a window of so many blocks. */
const blockLength = 4;
const windowBlocks = 5;
/** What a change of key must gain, in correlation. */
const change = 0.6;
/** What a tonic triad adds: by its share of a window, and where the music begins and ends with it. */
const tonicShare = 0.4;
const tonicEdge = 0.15;

/**
 * The key of each stretch: the correlation of what sounds with the profile of each key (C. L. Krumhansl, Cognitive
 * Foundations of Musical Pitch, 1990, chapter 4) over a window, with more for keys whose tonic triad sounds, so that
 * borrowed chords do not turn the key; and the best path through the windows, in which each change costs.
 */
export function keysOf(evidence: readonly KeyEvidence[]): readonly Key[] {
  const blocks = blocksOf(evidence);
  const scores = blocks.map((_, index) => windowScores(evidence, blocks, index));
  const path = bestPath(scores);
  return blocks.flatMap(({ from, to }, index) => {
    const key = keys[path[index] ?? 0];
    return key ? new Array<Key>(to - from).fill(key) : [];
  });
}

function blocksOf(evidence: readonly KeyEvidence[]): readonly Block[] {
  const total = evidence.reduce((sum, { length }) => sum + length, 0);
  if (total <= shortPiece) return evidence.length > 0 ? [{ from: 0, to: evidence.length }] : [];
  const blocks: Block[] = [];
  let from = 0;
  let length = 0;
  evidence.forEach((stretch, index) => {
    length += stretch.length;
    if (length < blockLength && index < evidence.length - 1) return;
    blocks.push({ from, to: index + 1 });
    from = index + 1;
    length = 0;
  });
  return blocks;
}

/** How well each of the 24 keys fits the window around a block. */
function windowScores(
  evidence: readonly KeyEvidence[],
  blocks: readonly Block[],
  at: number,
): readonly number[] {
  const reach = (windowBlocks - 1) / 2;
  const from = blocks[Math.max(0, at - reach)]?.from ?? 0;
  const to = blocks[Math.min(blocks.length - 1, at + reach)]?.to ?? 0;
  const classes = new Array<number>(12).fill(0);
  const triads = new Array<number>(24).fill(0);
  let total = 0;
  for (const { length, classes: shares, triad } of evidence.slice(from, to)) {
    total += length;
    shares.forEach((share, pitchClass) => {
      classes[pitchClass] = (classes[pitchClass] ?? 0) + share * length;
    });
    if (triad) {
      const index = triad.root + (triad.mode === 'major' ? 0 : 12);
      triads[index] = (triads[index] ?? 0) + length;
    }
  }
  const edges = [at === 0 ? evidence[0] : undefined, at === blocks.length - 1 ? evidence.at(-1) : undefined];
  return keys.map(({ tonic, mode }, index) => {
    const turned = classes.map((_, degree) => classes[mod(tonic + degree, 12)] ?? 0);
    const ends = edges.filter((edge) => edge?.triad?.root === tonic && edge.triad.mode === mode).length;
    const tonics = total > 0 ? (triads[index] ?? 0) / total : 0;
    return correlation(turned, profiles[mode]) + tonicShare * tonics + tonicEdge * ends;
  });
}

/** Pearson's; 0 where one of both is even. */
function correlation(a: readonly number[], b: readonly number[]): number {
  const [meanA, meanB] = [mean(a), mean(b)];
  let [both, ofA, ofB] = [0, 0, 0];
  a.forEach((value, index) => {
    const [x, y] = [value - meanA, (b[index] ?? 0) - meanB];
    both += x * y;
    ofA += x * x;
    ofB += y * y;
  });
  return ofA > 0 && ofB > 0 ? both / Math.sqrt(ofA * ofB) : 0;
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** The key of each block on the path of highest sum (A. J. Viterbi, 1967). */
function bestPath(scores: readonly (readonly number[])[]): readonly number[] {
  let reached: readonly number[] = keys.map(() => 0);
  const steps = scores.map((here) => {
    const best = indexOfBest(reached);
    const moved = (reached[best] ?? 0) - change;
    const from = reached.map((score, key) => (score >= moved ? key : best));
    reached = here.map((score, key) => score + Math.max(reached[key] ?? 0, moved));
    return from;
  });
  let key = indexOfBest(reached);
  return steps
    .reverse()
    .map((from) => {
      const here = key;
      key = from[key] ?? key;
      return here;
    })
    .reverse();
}

function indexOfBest(values: readonly number[]): number {
  return values.reduce((best, value, index) => (value > (values[best] ?? 0) ? index : best), 0);
}
