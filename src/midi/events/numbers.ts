import { isInt32, type Ticks } from './ticks.js';

/** A column of whole numbers that grows at its end: in 32 bits for as long as they can say them (see `Ticks`). */
export class Numbers {
  length = 0;
  #numbers: Ticks;

  /** @param expected about how many there will be */
  constructor(expected = 64) {
    this.#numbers = new Int32Array(Math.max(64, expected));
  }

  /** @returns its index */
  push(number: number): number {
    const at = this.length;
    if (at === this.#numbers.length) this.#make(this.#numbers, Math.ceil(at * 1.5));
    this.set(at, number);
    this.length = at + 1;
    return at;
  }

  /** 0 where there is none. */
  at(index: number): number {
    return this.#numbers[index] ?? 0;
  }

  set(index: number, number: number): void {
    if (!isInt32(number) && this.#numbers instanceof Int32Array)
      this.#numbers = Float64Array.from(this.#numbers);
    this.#numbers[index] = number;
  }

  /** All of them: a view, unless much room is left. */
  column(): Ticks {
    const { length } = this;
    // What is nearly full is kept with the room that is left.
    const isFull = length > this.#numbers.length * 0.75;
    return isFull ? this.#numbers.subarray(0, length) : this.#numbers.slice(0, length);
  }

  #make(before: Ticks, room: number): void {
    this.#numbers = before instanceof Int32Array ? new Int32Array(room) : new Float64Array(room);
    this.#numbers.set(before);
  }
}
