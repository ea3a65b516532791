import { type Clock, type Duration, isAtLeast } from '../midi/index.js';
import type { HeardNotes } from './heard-notes.js';
import { Numbers } from './numbers.js';

/** The silence before each onset of a part, by onset: since the latest release before it; endless before the first. */
export class Rests {
  readonly #clock: Clock;
  /** The ticks between which it is silent; −1 where it was silent from ever. */
  readonly #froms = new Numbers();
  readonly #tos = new Numbers();

  constructor(notes: Pick<HeardNotes, 'length' | 'onset' | 'tick' | 'endTick'>, clock: Clock) {
    this.#clock = clock;
    let latest = 0;
    for (let note = 0; note < notes.length; note++) {
      const tick = notes.tick(note);
      const onset = notes.onset(note);
      if (this.#froms.length <= onset) {
        this.#froms.push(onset === 0 ? -1 : Math.min(latest, tick));
        this.#tos.push(tick);
      }
      latest = Math.max(latest, notes.endTick(note));
    }
  }

  /** Unit: ms. */
  ms(onset: number): number {
    const from = this.#froms.at(onset);
    return from < 0 ? Number.POSITIVE_INFINITY : this.#clock.ms(this.#tos.at(onset)) - this.#clock.ms(from);
  }

  ticks(onset: number): number {
    const from = this.#froms.at(onset);
    return from < 0 ? Number.POSITIVE_INFINITY : this.#tos.at(onset) - from;
  }

  /** For each onset 1 if a switch is sent again after the rest before it; 0 everywhere where no rest is given. */
  due(afterRest: Duration | undefined): Uint8Array {
    const { ticksPerWhole } = this.#clock;
    const due = new Uint8Array(this.#froms.length);
    if (afterRest)
      for (let onset = 0; onset < due.length; onset++) {
        const rest = { ms: this.ms(onset), ticks: this.ticks(onset) };
        if (isAtLeast(rest, afterRest, ticksPerWhole)) due[onset] = 1;
      }
    return due;
  }
}
