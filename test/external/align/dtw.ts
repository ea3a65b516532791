// The other way that was tried: dynamic time warping of onsets, each a set of pitches.
import { chordsOf, type Pair, type TakenNote, type WrittenNote } from '../../../src/score/align/index.js';

/** Played notes this close are one onset. Unit: ms. */
const together = 50;

interface Onset {
  readonly notes: readonly number[];
  readonly pitches: ReadonlySet<number>;
}

/**
 * Pairs by dynamic time warping (Sakoe & Chiba 1978, steps (1,1), (1,0), (0,1)): every onset of the one side meets at
 * least one of the other, at the cost of the pitches that they do not share. Notes of one pitch in onsets that meet are
 * pairs, each once.
 */
export function warp(written: readonly WrittenNote[], taken: readonly TakenNote[]): readonly Pair[] {
  const score: Onset[] = chordsOf(written).map(({ notes }) => ({
    notes,
    pitches: new Set(notes.map((index) => written[index]?.pitch ?? 0)),
  }));
  const take = onsetsOf(taken);
  const width = take.length + 1;
  const costs = new Float32Array((score.length + 1) * width).fill(Number.POSITIVE_INFINITY);
  costs[0] = 0;
  const at = (row: number, column: number) => costs[row * width + column] ?? Number.POSITIVE_INFINITY;
  for (let row = 1; row <= score.length; row++)
    for (let column = 1; column < width; column++) {
      const least = Math.min(at(row - 1, column - 1), at(row - 1, column), at(row, column - 1));
      costs[row * width + column] = least + distance(score[row - 1], take[column - 1]);
    }
  const pairs: Pair[] = [];
  const used = { written: new Set<number>(), taken: new Set<number>() };
  for (let row = score.length, column = take.length; row > 0 && column > 0; ) {
    pairs.push(...meet(score[row - 1], take[column - 1], written, taken, used));
    const [both, up, left] = [at(row - 1, column - 1), at(row - 1, column), at(row, column - 1)];
    if (both <= up && both <= left) {
      row -= 1;
      column -= 1;
    } else if (up <= left) row -= 1;
    else column -= 1;
  }
  return pairs;
}

function onsetsOf(taken: readonly TakenNote[]): readonly Onset[] {
  const onsets: { notes: number[]; pitches: Set<number>; ms: number }[] = [];
  taken.forEach(({ ms, pitch }, index) => {
    const last = onsets.at(-1);
    if (last && ms - last.ms <= together) {
      last.notes.push(index);
      last.pitches.add(pitch);
    } else onsets.push({ notes: [index], pitches: new Set([pitch]), ms });
  });
  return onsets;
}

/** 0 where all pitches are shared, 1 where none is. */
function distance(a: Onset | undefined, b: Onset | undefined): number {
  if (!a || !b) return 1;
  let shared = 0;
  for (const pitch of a.pitches) if (b.pitches.has(pitch)) shared += 1;
  return 1 - shared / Math.max(a.pitches.size, b.pitches.size);
}

function meet(
  a: Onset | undefined,
  b: Onset | undefined,
  written: readonly WrittenNote[],
  taken: readonly TakenNote[],
  used: { readonly written: Set<number>; readonly taken: Set<number> },
): readonly Pair[] {
  const pairs: Pair[] = [];
  for (const index of a?.notes ?? []) {
    const partner = b?.notes.find(
      (note) => !used.taken.has(note) && taken[note]?.pitch === written[index]?.pitch,
    );
    if (partner === undefined || used.written.has(index)) continue;
    used.written.add(index);
    used.taken.add(partner);
    pairs.push({ written: index, taken: partner });
  }
  return pairs;
}
