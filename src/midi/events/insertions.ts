import type { Message } from './message.js';
import { Numbers } from './numbers.js';

/** Channel messages to be put into a track, in columns, in the order in which they were made. */
export class Insertions {
  readonly #ticks = new Numbers();
  #before = new Uint32Array(64);
  /** Rank, status, and two data bytes: 0xRRSSAABB. */
  #messages = new Uint32Array(64);

  get length(): number {
    return this.#ticks.length;
  }

  /**
   * @param before the index of the event before which it stands (the number of events: at the end)
   * @param rank what comes first at one place and tick: the lower, 0–255
   */
  put(before: number, tick: number, rank: number, message: Message): void {
    const at = this.#ticks.push(tick);
    if (at === this.#before.length) this.#grow();
    this.#before[at] = before;
    this.#messages[at] = (rank << 24) | message;
  }

  /** The same for all that others put in. */
  putAll(others: Insertions): void {
    for (let at = 0; at < others.length; at++)
      this.put(others.beforeOf(at), others.tickOf(at), others.rankOf(at), others.messageOf(at));
  }

  /** The index of the event before which an insertion stands. */
  beforeOf(insertion: number): number {
    return this.#before[insertion] ?? 0;
  }

  tickOf(insertion: number): number {
    return this.#ticks.at(insertion);
  }

  messageOf(insertion: number): Message {
    return (this.#messages[insertion] ?? 0) & 0xffffff;
  }

  rankOf(insertion: number): number {
    return (this.#messages[insertion] ?? 0) >>> 24;
  }

  /**
   * Their indices by place, then tick, then rank; what is equal in all three keeps its order. Places are counted rather
   * than compared, because most hold one insertion.
   *
   * @param places how many events the track has
   */
  inOrder(places: number): Uint32Array {
    const starts = this.#startsOf(places);
    const next = starts.slice();
    const sorted = new Uint32Array(this.length);
    for (let at = 0; at < this.length; at++) {
      const place = this.beforeOf(at);
      const from = starts[place] ?? 0;
      let to = next[place] ?? 0;
      next[place] = to + 1;
      for (; to > from && this.#isBefore(at, sorted[to - 1] ?? 0); to--) sorted[to] = sorted[to - 1] ?? 0;
      sorted[to] = at;
    }
    return sorted;
  }

  #grow(): void {
    const { length } = this.#before;
    const [before, messages] = [this.#before, this.#messages];
    this.#before = new Uint32Array(Math.ceil(length * 1.5));
    this.#messages = new Uint32Array(Math.ceil(length * 1.5));
    this.#before.set(before);
    this.#messages.set(messages);
  }

  /** How many insertions stand before each place. */
  #startsOf(places: number): Uint32Array {
    const starts = new Uint32Array(places + 2);
    for (let at = 0; at < this.length; at++) {
      const place = this.beforeOf(at) + 1;
      starts[place] = (starts[place] ?? 0) + 1;
    }
    for (let place = 1; place < starts.length; place++)
      starts[place] = (starts[place] ?? 0) + (starts[place - 1] ?? 0);
    return starts;
  }

  #isBefore(one: number, other: number): boolean {
    const later = this.tickOf(one) - this.tickOf(other);
    return later < 0 || (later === 0 && this.rankOf(one) < this.rankOf(other));
  }
}
