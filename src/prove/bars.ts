import type { Clock } from '../midi/index.js';
import type { HeardNotes } from './heard-notes.js';

/** The bar of each note, from 1; 0 where the file has no bars. */
export function barsOf(notes: Pick<HeardNotes, 'length' | 'tick'>, clock: Clock): Int32Array {
  const bars = new Int32Array(notes.length);
  for (let note = 0; note < bars.length; note++) bars[note] = clock.position(notes.tick(note))?.bar ?? 0;
  return bars;
}

/** Counts the bars of stretches that may lie over each other, given in order of their ends. */
export class CoveredBars {
  /** Stretches that do not touch, in order. */
  readonly #froms: number[] = [];
  readonly #tos: number[] = [];

  /** @param to no lower than any before */
  add(from: number, to: number): void {
    let first = from;
    for (let last = this.#tos.at(-1); last !== undefined && last >= first - 1; last = this.#tos.at(-1)) {
      first = Math.min(first, this.#froms.pop() ?? first);
      this.#tos.pop();
    }
    this.#froms.push(first);
    this.#tos.push(to);
  }

  get count(): number {
    return this.#froms.reduce((sum, from, at) => sum + (this.#tos[at] ?? 0) - from + 1, 0);
  }
}
