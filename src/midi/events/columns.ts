import type { Events } from './events.js';
import { Numbers } from './numbers.js';

/** Columns of events that grow at the end. */
export class GrowingEvents {
  length = 0;
  readonly #ticks: Numbers;
  #status: Uint8Array;
  #data: Uint32Array;
  #end: Uint32Array;

  /** @param expected about how many events there will be */
  constructor(expected: number) {
    const room = Math.max(8, Math.ceil(expected));
    this.#ticks = new Numbers(room);
    this.#status = new Uint8Array(room);
    this.#data = new Uint32Array(room);
    this.#end = new Uint32Array(room);
  }

  /** As the columns of `Events`. */
  add(tick: number, status: number, data: number, end: number): void {
    const at = this.length;
    if (at === this.#status.length) this.#grow();
    this.#ticks.push(tick);
    this.#status[at] = status;
    this.#data[at] = data;
    this.#end[at] = end;
    this.length = at + 1;
  }

  /** The events so far, of the bytes that their offsets count in. */
  of(bytes: Uint8Array): Events {
    const { length } = this;
    // What is nearly full is kept with the room that is left.
    const isFull = length > this.#status.length * 0.75;
    const fitted = <T extends Uint8Array | Uint32Array>(column: T) =>
      (isFull ? column.subarray(0, length) : column.slice(0, length)) as T;
    return {
      bytes,
      length,
      ticks: this.#ticks.column(),
      status: fitted(this.#status),
      data: fitted(this.#data),
      end: fitted(this.#end),
    };
  }

  #grow(): void {
    const room = Math.ceil(this.#status.length * 1.5);
    this.#status = grown(this.#status, new Uint8Array(room));
    this.#data = grown(this.#data, new Uint32Array(room));
    this.#end = grown(this.#end, new Uint32Array(room));
  }
}

function grown<T extends Uint8Array | Uint32Array>(from: T, to: T): T {
  to.set(from);
  return to;
}
