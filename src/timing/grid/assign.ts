/**
 * Gives each onset of a beat a whole place of its own so that the sum of squared distances is least: places rise
 * strictly and lie within `low`…`high`. With place minus index as the unknown this is integer isotonic regression: pool
 * adjacent violators (Ayer, Brunk, Ewing, Reid & Silverman 1955), then round and clamp. Linear. The bounds come in
 * last, so that onsets are pooled once for all bounds. One object serves any number of beats, one after another.
 */
export class PlaceAssigner {
  #length = 0;
  /** The place of each onset less its index, where there are no bounds. */
  #free = new Float64Array(0);
  /** Onsets that are pooled: the sum of their positions, less their indices, and how many they are. */
  #sums = new Float64Array(0);
  #counts = new Float64Array(0);

  /**
   * From now on it is about the onsets from one index to before another.
   *
   * @param beats rising
   * @param start the beat at which places are counted from 0
   * @param parts how many places a beat has
   */
  pool(beats: Float64Array, from: number, to: number, start: number, parts: number): void {
    this.#length = to - from;
    if (this.#length > this.#free.length) this.#make(2 * this.#length);
    const [free, sums, counts] = [this.#free, this.#sums, this.#counts];
    let blocks = 0;
    for (let index = 0; index < this.#length; index++) {
      let sum = ((beats[from + index] ?? 0) - start) * parts - index;
      let count = 1;
      for (let last = blocks - 1; last >= 0; last--) {
        if ((sums[last] ?? 0) / (counts[last] ?? 1) < sum / count) break;
        sum = (sums[last] ?? 0) + sum;
        count = (counts[last] ?? 0) + count;
        blocks -= 1;
      }
      sums[blocks] = sum;
      counts[blocks] = count;
      blocks += 1;
    }
    let index = 0;
    for (let block = 0; block < blocks; block++) {
      const count = counts[block] ?? 1;
      const value = Math.round((sums[block] ?? 0) / count);
      for (const end = index + count; index < end; index++) free[index] = value;
    }
  }

  /** Whether there are as many places as onsets. */
  hasRoom(low: number, high: number): boolean {
    return this.#length <= high - low + 1;
  }

  /** The place of an onset, counted from the first that was pooled, where there is room. */
  at(index: number, low: number, high: number): number {
    return Math.min(high + 1 - this.#length, Math.max(low, this.#free[index] ?? 0)) + index;
  }

  /** The place of the last onset, likewise. */
  last(low: number, high: number): number {
    return this.at(this.#length - 1, low, high);
  }

  #make(room: number): void {
    this.#free = new Float64Array(room);
    this.#sums = new Float64Array(room);
    this.#counts = new Float64Array(room);
  }
}
