import { Numbers } from '../midi/index.js';
import type { HeardNotes } from './heard-notes.js';
import type { Stage } from './part.js';

/**
 * What the notes of a part need of key switches, in columns: one for each note and each aspect in which a key must stand
 * for it, in order of the notes.
 */
export class Demands {
  readonly #notes: Numbers;
  readonly #places: Numbers;
  readonly #sent: Numbers;
  readonly #previous: Numbers;

  constructor(notes: HeardNotes, { library }: Pick<Stage, 'library'>) {
    this.#notes = new Numbers(notes.length);
    this.#places = new Numbers(notes.length);
    this.#sent = new Numbers(notes.length);
    this.#previous = new Numbers(notes.length);
    const lastTick = new Float64Array(16).fill(-1);
    for (let note = 0; note < notes.length; note++) {
      const channel = notes.channel(note);
      notes.keyedAspects(note).forEach((aspect, at) => {
        this.#notes.push(note);
        this.#places.push(channel * library.aspects.length + aspect);
        this.#sent.push(notes.strikeTick(note, at));
        this.#previous.push(lastTick[channel] ?? -1);
      });
      lastTick[channel] = notes.tick(note);
    }
  }

  get length(): number {
    return this.#notes.length;
  }

  /** The note that needs it; −1 behind the last. */
  note(demand: number): number {
    return demand < this.length ? this.#notes.at(demand) : -1;
  }

  /** A number for the aspect and the channel. */
  place(demand: number): number {
    return this.#places.at(demand);
  }

  /** The tick at which the key was struck. */
  sent(demand: number): number {
    return this.#sent.at(demand);
  }

  /** The tick of the note of its channel before; −1 before the first. */
  previous(demand: number): number {
    return this.#previous.at(demand);
  }
}
