import { GrowingEvents } from './columns.js';
import { dataOf, type Events, endOf, isRunning, statusOf } from './events.js';
import { putQuantity } from './quantity.js';

/** Puts the events of a new track together, in their order. Times are only ticks: the writer spells them. */
export class EventBuilder {
  #bytes = new Uint8Array(1024);
  #length = 0;
  readonly #events = new GrowingEvents(256);

  /** A channel message; `two` counts only where its kind has a second data byte. */
  message(tick: number, status: number, one: number, two = 0): void {
    const isShort = status >= 0xc0 && status < 0xe0;
    this.#add(tick, status, [status], isShort ? [one] : [one, two]);
  }

  /** A message that leaves out its status byte, where that of the message before it is the same. */
  runningMessage(tick: number, status: number, one: number, two = 0): void {
    const isShort = status >= 0xc0 && status < 0xe0;
    this.#add(tick, status, [], isShort ? [one] : [one, two]);
  }

  /** A meta event with its type. */
  meta(tick: number, type: number, data: ArrayLike<number>): void {
    this.#add(tick, 0xff, [0xff], [type], data);
  }

  /** A system exclusive event: 0xF0, or 0xF7 for what goes on or is sent as it is. */
  exclusive(tick: number, status: 0xf0 | 0xf7, data: ArrayLike<number>): void {
    this.#add(tick, status, [status], [], data);
  }

  /**
   * An event of another track, byte for byte, at a tick of its own.
   *
   * @param status another status (0x80–0xEF) of the same kind: another channel
   */
  copy(tick: number, events: Events, event: number, status = statusOf(events, event)): void {
    const data = events.bytes.subarray(dataOf(events, event), endOf(events, event));
    this.#add(tick, status, isRunning(events, event) ? [] : [status], data);
  }

  events(): Events {
    return this.#events.of(this.#bytes.slice(0, this.#length));
  }

  #add(
    tick: number,
    status: number,
    head: readonly number[],
    parameters: ArrayLike<number>,
    counted?: ArrayLike<number>,
  ): void {
    // In place of a time.
    this.#put([0]);
    this.#put(head);
    const data = this.#length;
    this.#put(parameters);
    if (counted) {
      this.#reserve(4);
      this.#length = putQuantity(this.#bytes, this.#length, counted.length);
      this.#put(counted);
    }
    this.#events.add(tick, status, data, this.#length);
  }

  #put(source: ArrayLike<number>): void {
    this.#reserve(source.length);
    this.#bytes.set(source, this.#length);
    this.#length += source.length;
  }

  #reserve(more: number): void {
    if (this.#length + more <= this.#bytes.length) return;
    const larger = new Uint8Array(Math.max(this.#length + more, this.#bytes.length * 2));
    larger.set(this.#bytes.subarray(0, this.#length));
    this.#bytes = larger;
  }
}
