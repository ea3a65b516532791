import type { Struck } from './struck.js';

/** Successive onsets that are sung in one breath. */
export interface Phrase {
  /** Indices of its first and last onset. */
  readonly first: number;
  readonly last: number;
  /** The index of its highest onset, the earliest of several. */
  readonly peak: number;
}

/**
 * Where a phrase ends. After Lerdahl & Jackendoff (1983), A Generative Theory of Tonal Music, grouping preference rule 2:
 * a boundary is heard after a rest, and after a time to the next attack that is longer than those around it. How much
 * longer is this program's own choice, no source: a rest as long as the median pace around it; a pace twice as long as
 * three quarters of those around it, which the long notes of a rhythm that comes again and again (dotted, dactylic) are
 * not.
 */
export const boundaries = {
  /** In multiples of the median pace. */
  rest: 1,
  /** In multiples of the upper quartile of paces. */
  longNote: 2,
  /** A shorter silence is the end of a short note. Unit: ms. */
  minRestMs: 120,
  /** A long note ends no phrase of fewer onsets. */
  minOnsets: 3,
  /** How many onsets on either side are around it. */
  around: 4,
} as const;

/**
 * The phrases of a line: each ends with a breath mark, before a rest, or with a long note, and with the line. Every onset
 * belongs to one. Linear in onsets.
 */
export function phrasesOf(onsets: readonly Struck[]): readonly Phrase[] {
  const phrases: Phrase[] = [];
  let first = 0;
  onsets.forEach((_, index) => {
    const isLast = index === onsets.length - 1;
    if (!isLast && !endsPhrase(onsets, index, index - first + 1)) return;
    phrases.push({ first, last: index, peak: highestOf(onsets, first, index) });
    first = index + 1;
  });
  return phrases;
}

function endsPhrase(onsets: readonly Struck[], index: number, length: number): boolean {
  const onset = onsets[index];
  if (!onset) return false;
  if (onset.breath) return true;
  const { restAfterMs, paceMs } = onset;
  if (
    restAfterMs >= boundaries.minRestMs &&
    restAfterMs >= boundaries.rest * paceAround(onsets, index, 0.5)
  ) {
    return true;
  }
  if (length < boundaries.minOnsets) return false;
  return paceMs >= boundaries.longNote * paceAround(onsets, index, 0.75);
}

/** The pace that a share of the onsets around one do not exceed; its own counts with them. */
function paceAround(onsets: readonly Struck[], index: number, share: number): number {
  const { around } = boundaries;
  const paces = onsets.slice(Math.max(0, index - around), index + around + 1).map(({ paceMs }) => paceMs);
  paces.sort((a, b) => a - b);
  return paces[Math.ceil(share * (paces.length - 1))] ?? 0;
}

function highestOf(onsets: readonly Struck[], first: number, last: number): number {
  let peak = first;
  for (let index = first + 1; index <= last; index += 1) {
    if ((onsets[index]?.pitch ?? 0) > (onsets[peak]?.pitch ?? 0)) peak = index;
  }
  return peak;
}
