import {
  dataOf,
  type Events,
  endOf,
  isDelta,
  isRunning,
  putQuantity,
  saysQuantity,
  statusOf,
  tickOf,
} from '../events/index.js';

/** Shorter stretches than this are copied byte by byte. */
const shortCopy = 24;

/**
 * Writes the events of one track, and messages between them, behind each other. What the track's own bytes say already
 * is copied as it stands: the spelling of a time that has not changed, a status that is left out, everything within an
 * event. Stretches of such events are copied whole.
 *
 * A status is left out only where it was left out before and is still in force; behind a meta or system exclusive
 * event only where that is so in the track itself (Standard MIDI File 1.0 ends it there). What is put in names its
 * status, and so the event behind it names its own again if it needs another.
 */
export class Splicer {
  readonly #events: Events;
  #out: Uint8Array;
  #length: number;
  /** The tick of what was written last. */
  #tick = 0;
  /** The status in force; 0 before the first. */
  #inForce = 0;
  /** Whether nothing but a channel message was written since it was said. */
  #isFresh = false;
  /** The bytes of the track that are next to be copied. */
  #from = 0;
  #to = 0;

  /**
   * @param head how many bytes are left free at the beginning
   * @param expected about how many bytes will be written
   */
  constructor(events: Events, head: number, expected: number) {
    this.#events = events;
    this.#length = head;
    this.#out = new Uint8Array(head + expected + 16);
  }

  /** The tick of what was written last. */
  get tick(): number {
    return this.#tick;
  }

  /** Writes an event of the track. False, and nothing is written, where no file can say its time. */
  event(event: number): boolean {
    const events = this.#events;
    const { bytes } = events;
    const tick = tickOf(events, event);
    const status = statusOf(events, event);
    const data = dataOf(events, event);
    const before = event > 0 ? endOf(events, event - 1) : 0;
    const isLeftOut = isRunning(events, event);
    const begin = isLeftOut ? data : data - 1;
    const isSameTime = saysQuantity(bytes, before, begin, tick - this.#tick);
    if (!isSameTime && !isDelta(tick - this.#tick)) return false;
    const isNeighbour = isSameTime && before === this.#to && this.#from < this.#to;
    const isSaid = isLeftOut
      ? status === this.#inForce && (this.#isFresh || isNeighbour)
      : bytes[begin] === status;
    if (isSameTime) this.#copy(before, begin);
    else this.#delta(tick - this.#tick);
    if (!isSaid) this.#byte(status);
    this.#copy(isSaid ? begin : data, endOf(events, event));
    this.#tick = tick;
    this.#isFresh = status < 0xf0;
    if (status < 0xf0) this.#inForce = status;
    return true;
  }

  /** Writes a channel message, 0xSSAABB. False, and nothing is written, where no file can say its time. */
  message(tick: number, message: number): boolean {
    if (!isDelta(tick - this.#tick)) return false;
    this.#delta(tick - this.#tick);
    const status = message >> 16;
    const out = this.#out;
    out[this.#length++] = status;
    out[this.#length++] = (message >> 8) & 0x7f;
    if (status < 0xc0 || status >= 0xe0) out[this.#length++] = message & 0x7f;
    this.#tick = tick;
    this.#inForce = status;
    this.#isFresh = true;
    return true;
  }

  /** All that was written, behind the free bytes. */
  bytes(): Uint8Array {
    this.#flush();
    return this.#out.subarray(0, this.#length);
  }

  #copy(from: number, to: number): void {
    if (from === this.#to) {
      this.#to = to;
      return;
    }
    this.#flush();
    this.#from = from;
    this.#to = to;
  }

  #delta(delta: number): void {
    this.#flush();
    // And a message behind it.
    this.#reserve(8);
    this.#length = putQuantity(this.#out, this.#length, delta);
  }

  #byte(byte: number): void {
    this.#flush();
    this.#reserve(1);
    this.#out[this.#length++] = byte;
  }

  #flush(): void {
    const [from, to] = [this.#from, this.#to];
    this.#from = to;
    if (from === to) return;
    const { bytes } = this.#events;
    this.#reserve(to - from);
    if (to - from < shortCopy)
      for (let at = from; at < to; at++) this.#out[this.#length + at - from] = bytes[at] ?? 0;
    else this.#out.set(bytes.subarray(from, to), this.#length);
    this.#length += to - from;
  }

  #reserve(more: number): void {
    if (this.#length + more <= this.#out.length) return;
    const larger = new Uint8Array(Math.max(this.#length + more, this.#out.length * 2));
    larger.set(this.#out.subarray(0, this.#length));
    this.#out = larger;
  }
}
