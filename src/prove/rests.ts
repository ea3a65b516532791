import { type Clock, type Duration, isAtLeast } from '../midi/index.js';
import type { HeardNotes } from './heard-notes.js';

/** The silence before each onset of a part, by onset: since the latest release before it; endless before the first. */
export class Rests {
  readonly #ticksPerWhole: number | null;
  readonly #ms: Float64Array;
  readonly #ticks: Float64Array;

  constructor(notes: Pick<HeardNotes, 'length' | 'onset' | 'tick' | 'endTick'>, clock: Clock) {
    this.#ticksPerWhole = clock.ticksPerWhole;
    const ms = new Float64Array(notes.length);
    const ticks = new Float64Array(notes.length);
    let onsets = 0;
    let latest = 0;
    for (let note = 0; note < notes.length; note++) {
      const tick = notes.tick(note);
      if (onsets <= notes.onset(note)) {
        const from = Math.min(latest, tick);
        const isEndless = notes.onset(note) === 0;
        ms[onsets] = isEndless ? Number.POSITIVE_INFINITY : clock.ms(tick) - clock.ms(from);
        ticks[onsets] = isEndless ? Number.POSITIVE_INFINITY : tick - from;
        onsets += 1;
      }
      latest = Math.max(latest, notes.endTick(note));
    }
    this.#ms = ms.subarray(0, onsets);
    this.#ticks = ticks.subarray(0, onsets);
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
