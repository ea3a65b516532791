// Scores and takes for tests: what is written, and how somebody might have played it.
import type { TakenNote, WrittenNote } from '../../../src/score/align/index.js';

/** A row of chords, a quarter each: "60 64-67 62". */
export function written(row: string): readonly WrittenNote[] {
  return row
    .split(' ')
    .flatMap((chord, index) =>
      chord.split('-').map((pitch) => ({ time: index, pitch: Number(pitch), isGrace: false })),
    );
}

/** "0:60 500:64": ms and pitch. */
export function taken(row: string): readonly TakenNote[] {
  return row.split(' ').map((word) => {
    const [ms = '', pitch = ''] = word.split(':');
    return { ms: Number(ms), pitch: Number(pitch) };
  });
}

/** A fixed order of numbers 0–1 (Park & Miller 1988, multiplier 48271). */
export function numbers(seed: number): () => number {
  let state = (seed % 2147483646) + 1;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
}
