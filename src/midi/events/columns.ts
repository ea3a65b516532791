import type { Events } from './events.js';
import { isInt32, type Ticks } from './ticks.js';

/** Columns of events that grow at the end. */
export class GrowingEvents {
  length = 0;
  #ticks: Ticks;
  #status: Uint8Array;
  #data: Uint32Array;
  #end: Uint32Array;

  /** @param expected about how many events there will be */
  constructor(expected: number) {
    const room = Math.max(8, Math.ceil(expected));
    this.#ticks = new Int32Array(room);
    this.#status = new Uint8Array(room);
    this.#data = new Uint32Array(room);
    this.#end = new Uint32Array(room);
  }

  /** As the columns of `Events`. */
  add(tick: number, status: number, data: number, end: number): void {
    const at = this.length;
    if (at === this.#status.length) this.#grow();
    if (!isInt32(tick) && this.#ticks instanceof Int32Array) this.#ticks = Float64Array.from(this.#ticks);
    this.#ticks[at] = tick;
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
    const fitted = <T extends Ticks | Uint8Array | Uint32Array>(column: T) =>
      (isFull ? column.subarray(0, length) : column.slice(0, length)) as T;
    return {
      bytes,
      length,
      ticks: fitted(this.#ticks),
      status: fitted(this.#status),
      data: fitted(this.#data),
      end: fitted(this.#end),
    };
  }

  #grow(): void {
    const room = Math.ceil(this.#status.length * 1.5);
    const ticks = this.#ticks instanceof Int32Array ? new Int32Array(room) : new Float64Array(room);
    ticks.set(this.#ticks);
    this.#ticks = ticks;
    this.#status = grown(this.#status, new Uint8Array(room));
    this.#data = grown(this.#data, new Uint32Array(room));
    this.#end = grown(this.#end, new Uint32Array(room));
  }
}

function grown<T extends Uint8Array | Uint32Array>(from: T, to: T): T {
  to.set(from);
  return to;
}
