import { channelOf, type Events, firstData, isNoteOff, isNoteOn } from '../midi/index.js';
import type { HeardNotes } from './heard-notes.js';
import { Actions } from './switch-actions.js';

/** What is followed on one channel. */
class Ear {
  /** The last note; −1 before the first. */
  last = -1;
  /** Actions that wait for the next note. */
  readonly waiting: number[] = [];
  /** How many notes sound. */
  open = 0;
  isOverwritten = false;
  /** For each key how many notes sound that were struck since it was, and need it; and the event that struck it. */
  readonly needing = new Int32Array(128);
  readonly struck = new Int32Array(128).fill(-1);
}

/** Follows what sounds on each channel, and which notes each switch stands between. */
export class Ears {
  readonly actions: Actions;
  readonly #events: Events;
  readonly #notes: HeardNotes;
  readonly #ears: readonly (Ear | undefined)[];

  constructor(events: Events, notes: HeardNotes, channels: ReadonlySet<number>) {
    this.actions = new Actions(events);
    this.#events = events;
    this.#notes = notes;
    this.#ears = Array.from({ length: 16 }, (_, channel) => (channels.has(channel) ? new Ear() : undefined));
  }

  /** A switch is sent. */
  act(event: number): void {
    const ear = this.#ears[channelOf(this.#events, event)];
    if (!ear) return;
    const key = firstData(this.#events, event);
    const reached = isNoteOff(this.#events, event) ? (ear.needing[key] ?? 0) : ear.open;
    ear.waiting.push(this.actions.add(event, ear.last, reached > 0, ear.isOverwritten));
    if (!isNoteOn(this.#events, event)) return;
    ear.needing[key] = 0;
    ear.struck[key] = event;
  }

  /** The music itself writes to an aspect of the map. */
  overwrite(channel: number): void {
    const ear = this.#ears[channel];
    if (ear) ear.isOverwritten = true;
  }

  begin(note: number): void {
    const ear = this.#ears[this.#notes.channel(note)];
    if (!ear) return;
    for (const action of ear.waiting) this.actions.tellNext(action, note);
    ear.waiting.length = 0;
    ear.last = note;
    ear.isOverwritten = false;
    ear.open += 1;
    for (const key of this.#keysOf(note)) ear.needing[key] = (ear.needing[key] ?? 0) + 1;
  }

  end(note: number): void {
    const ear = this.#ears[this.#notes.channel(note)];
    if (!ear) return;
    ear.open -= 1;
    const on = this.#notes.on(note);
    for (const key of this.#keysOf(note))
      if ((ear.struck[key] ?? -1) < on) ear.needing[key] = (ear.needing[key] ?? 0) - 1;
  }

  #keysOf(note: number): Iterable<number> {
    return this.#notes.sound(note)?.keys ?? [];
  }
}
