import { boundedGaussianOf, type NoteKey } from './hash.js';

/** In what order a chord's notes come; `unordered` but for the melody note. */
export type RollOrder = 'low-high' | 'high-low' | 'unordered';

export interface RollOptions {
  /** Standard deviation of one player's offset, in milliseconds. */
  readonly sdMs: number;
  readonly order: RollOrder;
  /** Time to the onset before and to the onset after the chord; endless where absent. */
  readonly roomBeforeMs?: number;
  readonly roomAfterMs?: number;
}

/** How much of the time to a neighbouring onset a chord may use; two neighbours together stay below the whole. */
const ROOM_SHARE = 0.45;

/**
 * Spreads notes that were struck together the way several players do: each has an offset of its own, normally
 * distributed, no farther than 2.5 standard deviations. Rasch (1979), Synchronization in performed ensemble music,
 * Acustica 43, measured standard deviations of about 30–50 ms between the players of a trio.
 *
 * The melody (highest) note is never late. Unordered and high to low, it has the chord's earliest offset, and none
 * after its written place: ensembles and pianists lead with it (Goebl 2001, Melody lead in piano performance, JASA
 * 110: about 30 ms). Low to high ends on it by its meaning; there the whole chord begins earlier, so that the
 * melody note still comes no later than written.
 *
 * @param notes of one chord, at one place
 * @returns the offset of each note in milliseconds, negative is early
 */
export function roll(notes: readonly NoteKey[], options: RollOptions): readonly number[] {
  if (notes.length < 2) return notes.map(() => 0);
  const draws = notes.map((note) => options.sdMs * boundedGaussianOf(note, 'roll'));
  const offsets = options.order === 'unordered' ? melodyFirst(notes, draws) : inOrder(notes, draws, options);
  const earliest = -ROOM_SHARE * (options.roomBeforeMs ?? Number.POSITIVE_INFINITY);
  const latest = ROOM_SHARE * (options.roomAfterMs ?? Number.POSITIVE_INFINITY);
  return offsets.map((offset) => Math.max(earliest, Math.min(latest, offset)));
}

/** The melody note changes its draw for the earliest one. */
function melodyFirst(notes: readonly NoteKey[], draws: readonly number[]): readonly number[] {
  const least = draws.reduce((lowest, draw) => Math.min(lowest, draw), Number.POSITIVE_INFINITY);
  const first = draws.indexOf(least);
  const melody = byPitch(notes).at(-1) ?? 0;
  return draws.map((draw, index) => {
    if (index === melody) return Math.min(0, least);
    return index === first ? (draws[melody] ?? draw) : draw;
  });
}

function inOrder(
  notes: readonly NoteKey[],
  draws: readonly number[],
  { order }: RollOptions,
): readonly number[] {
  const sorted = [...draws].sort((a, b) => a - b);
  const indices = byPitch(notes);
  if (order === 'high-low') {
    indices.reverse();
    sorted[0] = Math.min(0, sorted[0] ?? 0);
  }
  const late = order === 'low-high' ? Math.max(0, sorted.at(-1) ?? 0) : 0;
  const offsets = notes.map(() => 0);
  indices.forEach((index, rank) => {
    offsets[index] = (sorted[rank] ?? 0) - late;
  });
  return offsets;
}

/** Indices from the lowest note to the highest. */
function byPitch(notes: readonly NoteKey[]): number[] {
  return notes
    .map((_, index) => index)
    .sort((a, b) => (notes[a]?.pitch ?? 0) - (notes[b]?.pitch ?? 0) || a - b);
}
