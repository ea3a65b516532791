import { lastWithin } from '../midi/index.js';
import type { MeantNotes } from './meant-notes.js';

/**
 * Meant notes that wait to be heard. They are known by tick and key, and among equals by their order, so that one lost
 * note does not shift the others. Quickest where they are taken in order of time.
 */
export class WaitingNotes {
  readonly #meant: MeantNotes;
  /** The key that each is sent to. */
  readonly #keys: Uint8Array;
  /** The notes by tick; those of one tick in their order. */
  readonly #order: Uint32Array;
  readonly #taken: Uint8Array;
  #left: number;
  /** The notes of the tick that was looked at last: where they are in the order, and of each key a chain of them. */
  #tick = -1;
  #end = 0;
  readonly #first = new Int32Array(128);
  readonly #following: Int32Array;

  constructor(meant: MeantNotes, keys: Uint8Array) {
    this.#meant = meant;
    this.#keys = keys;
    this.#order = byTick(meant);
    this.#taken = new Uint8Array(meant.length);
    this.#left = meant.length;
    this.#following = new Int32Array(meant.length);
  }

  /** The next meant note of this tick and key, which then waits no more; −1 where there is none. */
  take(tick: number, key: number): number {
    if (tick !== this.#tick) this.#lookAt(tick);
    const note = this.#first[key] ?? -1;
    if (note < 0) return -1;
    this.#first[key] = this.#following[note] ?? -1;
    this.#taken[note] = 1;
    this.#left -= 1;
    return note;
  }

  /** Those that were not taken, by tick; those of one tick by key, in the order in which these first come. */
  left(): readonly number[] {
    if (this.#left === 0) return [];
    const left: number[] = [];
    for (let from = 0; from < this.#order.length; from = this.#end) {
      this.#seek(from);
      const keys = new Map<number, number[]>();
      for (const note of this.#order.subarray(from, this.#end)) {
        const key = this.#keys[note] ?? 0;
        const others = keys.get(key) ?? [];
        keys.set(key, others);
        if (!this.#taken[note]) others.push(note);
      }
      for (const notes of keys.values()) for (const note of notes) left.push(note);
    }
    return left;
  }

  #tickAt(place: number): number {
    return this.#meant.tick(this.#order[place] ?? 0);
  }

  #lookAt(tick: number): void {
    this.#first.fill(-1);
    const { length } = this.#order;
    const isNext = tick > this.#tick && this.#end < length && this.#tickAt(this.#end) >= tick;
    const from = isNext ? this.#end : lastWithin(length, (place) => this.#tickAt(place), tick - 1) + 1;
    this.#tick = tick;
    this.#end = from;
    if (from === length || this.#tickAt(from) !== tick) return;
    this.#seek(from);
    for (let place = this.#end - 1; place >= from; place--) {
      const note = this.#order[place] ?? 0;
      if (this.#taken[note]) continue;
      const key = this.#keys[note] ?? 0;
      this.#following[note] = this.#first[key] ?? -1;
      this.#first[key] = note;
    }
  }

  /** Puts the end behind the notes of the tick that begins at a place. */
  #seek(from: number): void {
    const { length } = this.#order;
    const tick = this.#tickAt(from);
    let end = from + 1;
    while (end < length && this.#tickAt(end) === tick) end += 1;
    this.#end = end;
  }
}

function byTick(meant: MeantNotes): Uint32Array {
  const order = new Uint32Array(meant.length);
  let isInOrder = true;
  for (let note = 0; note < order.length; note++) {
    order[note] = note;
    isInOrder &&= note === 0 || meant.tick(note - 1) <= meant.tick(note);
  }
  return isInOrder ? order : order.sort((a, b) => meant.tick(a) - meant.tick(b) || a - b);
}
