import { channelOf, type Events, firstData, Numbers, secondData, tickOf } from '../midi/index.js';
import type { HeardNotes } from './heard-notes.js';
import { keyCount, keyOf } from './pairs.js';
import { noteSpot, type Spot } from './violations.js';

/** The presses of a part's switch keys, each from its strike to its release, in columns, in file order. */
export class Presses {
  readonly #events: Events;
  readonly #partner: Int32Array;
  readonly #ons = new Numbers();
  readonly #restruck = new Numbers();
  readonly #needed = new Numbers();
  readonly #unwanted = new Numbers();
  /** For each channel and key the press that is going on. */
  readonly #open = new Int32Array(keyCount).fill(-1);

  /** @param partner the strike of each release, and the reverse; −1 where there is none */
  constructor(events: Events, partner: Int32Array) {
    this.#events = events;
    this.#partner = partner;
  }

  /** Passes a strike of a switch key. */
  strike(event: number): void {
    const key = keyOf(this.#events, event);
    const press = this.#ons.push(event);
    this.#restruck.push((this.#open[key] ?? -1) >= 0 ? 1 : 0);
    this.#needed.push(-1);
    this.#unwanted.push(-1);
    this.#open[key] = press;
  }

  /** Passes a release of a switch key. */
  release(event: number): void {
    const key = keyOf(this.#events, event);
    const press = this.#open[key] ?? -1;
    if (press >= 0 && this.#partner[event] === this.#ons.at(press)) this.#open[key] = -1;
  }

  /**
   * Passes a melody note.
   *
   * @param down the switch keys of its channel that are down
   */
  need(notes: HeardNotes, note: number, down: ReadonlySet<number>): void {
    if (!notes.isMeant(note)) return;
    const channel = notes.channel(note);
    const needed = notes.sound(note)?.keys ?? none;
    for (const key of needed) {
      const press = this.#open[(channel << 7) | key] ?? -1;
      if (press >= 0) this.#needed.set(press, Math.max(this.#needed.at(press), notes.end(note)));
    }
    for (const key of down) {
      const press = needed.has(key) ? -1 : (this.#open[(channel << 7) | key] ?? -1);
      if (press >= 0 && this.#unwanted.at(press) < 0) this.#unwanted.set(press, note);
    }
  }

  get length(): number {
    return this.#ons.length;
  }

  key(press: number): number {
    return firstData(this.#events, this.#ons.at(press));
  }

  /** 0–15. */
  channel(press: number): number {
    return channelOf(this.#events, this.#ons.at(press));
  }

  tick(press: number): number {
    return tickOf(this.#events, this.#ons.at(press));
  }

  /** Where it is struck, to tell of it. */
  spot(press: number): Spot {
    return noteSpot(this.#events, this.#ons.at(press));
  }

  velocity(press: number): number {
    return secondData(this.#events, this.#ons.at(press));
  }

  /** undefined where it is never released. */
  offTick(press: number): number | undefined {
    const off = this.#partner[this.#ons.at(press)] ?? -1;
    return off < 0 ? undefined : tickOf(this.#events, off);
  }

  /** Whether the key was still down when it was struck. */
  isRestruck(press: number): boolean {
    return this.#restruck.at(press) === 1;
  }

  /** The latest release of the notes that were struck while it was down, and need it; undefined where none does. */
  neededUntil(press: number): number | undefined {
    const end = this.#needed.at(press);
    return end < 0 ? undefined : tickOf(this.#events, end);
  }

  /** The first note that was struck while it was down, and must sound without it; −1 where there is none. */
  unwantedBy(press: number): number {
    return this.#unwanted.at(press);
  }
}

const none: ReadonlySet<number> = new Set();
