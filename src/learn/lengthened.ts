import type { Ladder } from './ladder.js';
import type { LearnNotes } from './notes.js';

/** An articulation whose notes overlap the next nearly always, as nearly no others do. */
export interface Lengthened {
  /** Index of the articulation. */
  readonly articulation: number;
  readonly notes: number;
  /** How far its notes overlap: the median, and the middle half's width. Unit: ms. */
  readonly overlapMs: number;
  readonly spreadMs: number;
  /** So even that no hand played it. */
  readonly even: boolean;
}

/** Nobody releases a whole line this evenly: players' releases spread by tens of ms (common practice, no source). */
const evenSpread = 6;

/** The share of the articulation's notes that overlap, and of the others that do not. */
const nearlyAll = 0.95;

/**
 * Notes that were lengthened for legato after they were played. On these `overlaps-next` looks perfect, but finds only
 * what the switch itself had done. Looked for only where the ladder asks whether notes overlap.
 */
export function lengthenedNotes(
  ladder: Ladder,
  notes: LearnNotes,
  labels: Int32Array,
): readonly Lengthened[] {
  const asked = new Set(
    ladder
      .filter(({ tests }) => tests.some(({ feature, from }) => asksForOverlap(feature.key, from?.value ?? 0)))
      .map(({ articulation }) => articulation),
  );
  return [...asked].flatMap((articulation) => {
    const found = lengthened(notes, labels, articulation);
    return found ? [found] : [];
  });
}

function asksForOverlap(key: string, from: number): boolean {
  return (key === 'overlaps-next' && from === 1) || (key === 'held-share' && from >= 95);
}

function lengthened(notes: LearnNotes, labels: Int32Array, articulation: number): Lengthened | undefined {
  const overlaps: number[] = [];
  let own = 0;
  let others = 0;
  let othersOverlapping = 0;
  labels.forEach((label, row) => {
    if (label < 0 || notes.piece[row] !== notes.piece[row + 1]) return;
    const overlapping = (notes.overlapsNext[row] ?? 0) > 0;
    if (label !== articulation) {
      others++;
      if (overlapping) othersOverlapping++;
      return;
    }
    own++;
    if (overlapping) overlaps.push((notes.heldMs[row] ?? 0) - (notes.paceMs[row] ?? 0));
  });
  if (
    overlaps.length < 8 ||
    overlaps.length < nearlyAll * own ||
    othersOverlapping > (1 - nearlyAll) * others
  )
    return undefined;
  overlaps.sort((a, b) => a - b);
  const quantile = (share: number) => overlaps[Math.floor(share * (overlaps.length - 1))] ?? 0;
  const spreadMs = quantile(0.75) - quantile(0.25);
  return { articulation, notes: own, overlapMs: quantile(0.5), spreadMs, even: spreadMs <= evenSpread };
}
