import type { Alignment, TakenNote, WrittenNote } from './notes.js';
import { rising } from './rising.js';

/** A note played in another's place. */
export interface WrongNote {
  readonly written: number;
  readonly taken: number;
}

/** A slip lies near its note on the keyboard (semitones), and near its time (ms). */
const farthestKey = 4;
const farthestTime = 150;

/**
 * Of the notes that have no partner, those that were played in the place of one another: a written and a played note
 * at one time, near in pitch. Nearest first, each once.
 */
export function wrongNotes(
  written: readonly WrittenNote[],
  taken: readonly TakenNote[],
  { pairs, missing, extra }: Alignment,
): readonly WrongNote[] {
  const expect = expectedMs(written, taken, pairs);
  if (!expect) return [];
  const spare = extra.map((index) => ({ index, ms: taken[index]?.ms ?? 0, pitch: taken[index]?.pitch ?? 0 }));
  const used = new Set<number>();
  return missing.flatMap((index): WrongNote[] => {
    const note = written[index];
    if (!note) return [];
    const ms = expect(note.time);
    const near = spare
      .filter((one) => !used.has(one.index) && Math.abs(one.ms - ms) <= farthestTime)
      .filter((one) => Math.abs(one.pitch - note.pitch) <= farthestKey)
      .sort(
        (a, b) => Math.abs(a.pitch - note.pitch) - Math.abs(b.pitch - note.pitch) || a.index - b.index,
      )[0];
    if (!near) return [];
    used.add(near.index);
    return [{ written: index, taken: near.index }];
  });
}

function expectedMs(
  written: readonly WrittenNote[],
  taken: readonly TakenNote[],
  pairs: Alignment['pairs'],
): ((time: number) => number) | undefined {
  const points = pairs.map((pair) => ({
    from: written[pair.written]?.time ?? 0,
    to: taken[pair.taken]?.ms ?? 0,
  }));
  return points.length === 0 ? undefined : rising(points);
}
