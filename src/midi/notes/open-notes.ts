/** Open notes: of each key a chain from the earliest to the latest. */
export class OpenNotes {
  readonly #first: Int32Array;
  readonly #last: Int32Array;
  readonly #next: Int32Array;

  /**
   * @param notes how many notes there are at most
   * @param keys how many keys; 128 of 16 channels, if absent
   */
  constructor(notes: number, keys = 16 * 128) {
    this.#first = new Int32Array(keys).fill(-1);
    this.#last = new Int32Array(keys).fill(-1);
    this.#next = new Int32Array(notes).fill(-1);
  }

  /** Strikes a key. */
  add(key: number, note: number): void {
    if (this.#first[key] === -1) this.#first[key] = note;
    else this.#next[this.#last[key] ?? 0] = note;
    this.#last[key] = note;
  }

  /** The earliest of a key, which is then open no more; −1 where there is none. */
  take(key: number): number {
    const note = this.first(key);
    if (note >= 0) this.#first[key] = this.next(note);
    return note;
  }

  /** The earliest of a key; −1 where there is none. */
  first(key: number): number {
    return this.#first[key] ?? -1;
  }

  /** The open note of the same key that was struck after one; −1 where there is none. */
  next(note: number): number {
    return this.#next[note] ?? -1;
  }
}
