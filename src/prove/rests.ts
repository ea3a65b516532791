import { type Clock, type Duration, isAtLeast } from '../midi/index.js';
import type { HeardNotes } from './heard-notes.js';

/** The silence before each onset of a part, by onset: since the latest release before it; endless before the first. */
export class Rests {
  readonly #ticksPerWhole: number | null;
  readonly #ms: Float64Array;
  readonly #ticks: Float64Array;

  constructor(notes: Pick<HeardNotes, 'length' | 'onset' | 'tick' | 'endTick'>, clock: Clock) {
    this.#ticksPerWhole = clock.ticksPerWhole;
    let onsets = 0;
    for (let note = 0; note < notes.length; note++) onsets = Math.max(onsets, notes.onset(note) + 1);
    // Of an onset of which nothing is heard nothing is asked.
    this.#ms = new Float64Array(onsets);
    this.#ticks = new Float64Array(onsets);
    let next = 0;
    let latest = 0;
    for (let note = 0; note < notes.length; note++) {
      const [tick, onset] = [notes.tick(note), notes.onset(note)];
      if (next <= onset) {
        const from = Math.min(latest, tick);
        this.#ms[onset] = onset === 0 ? Number.POSITIVE_INFINITY : clock.ms(tick) - clock.ms(from);
        this.#ticks[onset] = onset === 0 ? Number.POSITIVE_INFINITY : tick - from;
        next = onset + 1;
      }
      latest = Math.max(latest, notes.endTick(note));
    }
  }

  /** Unit: ms. */
  ms(onset: number): number {
    return this.#ms[onset] ?? 0;
  }

  ticks(onset: number): number {
    return this.#ticks[onset] ?? 0;
  }

  /** For each onset 1 if a switch is sent again after the rest before it; 0 everywhere where no rest is given. */
  due(afterRest: Duration | undefined): Uint8Array {
    const due = new Uint8Array(this.#ms.length);
    if (afterRest)
      for (let onset = 0; onset < due.length; onset++) {
        const rest = { ms: this.ms(onset), ticks: this.ticks(onset) };
        if (isAtLeast(rest, afterRest, this.#ticksPerWhole)) due[onset] = 1;
      }
    return due;
  }
}
