import { boundedGaussianOf, type NoteKey } from './hash.js';

/** In what order a chord's notes come; `top-first` is `unordered` but for its highest note, which comes first. */
export const rollOrders = ['unordered', 'low-high', 'high-low', 'top-first'] as const;

export type RollOrder = (typeof rollOrders)[number];

export interface RollOptions {
  /** Standard deviation of one player's own offset, in milliseconds; of the differences between two it is √2 more. */
  readonly sdMs: number;
  readonly order: RollOrder;
}

/**
 * Spreads notes that were struck together the way several players do: each has an offset of its own, normally
 * distributed, no farther than 2.5 standard deviations. Rasch (1979), Synchronization in performed ensemble music,
 * Acustica 43, measured standard deviations of 27 to 49 ms between two players of a trio; these are of differences, so
 * that one player's own offset is √2 smaller: 19 to 35 ms.
 *
 * Nobody leads unless it is asked for: that the highest note comes first is known of pianists (Goebl 2001, Melody lead
 * in piano performance, JASA 110: about 30 ms at the hammer, almost none at the key), not of ensembles. Notes of one
 * pitch keep their order.
 *
 * @param notes of one chord, at one place, in the order in which they were played
 * @returns the offset of each note in milliseconds, negative is early
 */
export function roll(notes: readonly NoteKey[], { sdMs, order }: RollOptions): readonly number[] {
  if (notes.length < 2) return notes.map(() => 0);
  const draws = notes.map((note) => sdMs * boundedGaussianOf(note, 'roll'));
  return inPlayedOrder(notes, ordered(notes, draws, order));
}

function ordered(notes: readonly NoteKey[], draws: readonly number[], order: RollOrder): readonly number[] {
  if (order === 'unordered') return draws;
  return order === 'top-first' ? topFirst(notes, draws) : stepwise(notes, draws, order === 'high-low');
}

/** The highest note changes its draw for the earliest one, and is never late. */
function topFirst(notes: readonly NoteKey[], draws: readonly number[]): readonly number[] {
  const least = draws.reduce((lowest, draw) => Math.min(lowest, draw), Number.POSITIVE_INFINITY);
  const first = draws.indexOf(least);
  const top = byPitch(notes).at(-1) ?? 0;
  return draws.map((draw, index) => {
    if (index === top) return Math.min(0, least);
    return index === first ? (draws[top] ?? draw) : draw;
  });
}

function stepwise(notes: readonly NoteKey[], draws: readonly number[], isDownward: boolean): number[] {
  const sorted = [...draws].sort((a, b) => a - b);
  const indices = byPitch(notes);
  if (isDownward) indices.reverse();
  const offsets = notes.map(() => 0);
  indices.forEach((index, rank) => {
    offsets[index] = sorted[rank] ?? 0;
  });
  return offsets;
}

/** Offsets of equal pitches change places, so that none of them passes another. */
function inPlayedOrder(notes: readonly NoteKey[], offsets: readonly number[]): readonly number[] {
  const pitches = new Map<number, number[]>();
  notes.forEach(({ pitch }, index) => {
    const others = pitches.get(pitch);
    if (others) others.push(index);
    else pitches.set(pitch, [index]);
  });
  const kept = [...offsets];
  for (const indices of pitches.values()) {
    const rising = indices.map((index) => offsets[index] ?? 0).sort((a, b) => a - b);
    indices.forEach((index, rank) => {
      kept[index] = rising[rank] ?? 0;
    });
  }
  return kept;
}

/** Indices from the lowest note to the highest. */
function byPitch(notes: readonly NoteKey[]): number[] {
  return notes
    .map((_, index) => index)
    .sort((a, b) => (notes[a]?.pitch ?? 0) - (notes[b]?.pitch ?? 0) || a - b);
}
