const pitchCount = 128;

/** Pitches in columns, from low to high, with how they sound over some length. */
export interface PitchColumns {
  readonly pitch: number[];
  /** The share of the length through which the pitch sounds: above 0, at most 1. */
  readonly share: number[];
  /** The same, with what passes counting less. */
  readonly weight: number[];
}

/** Adds up through how many ticks each MIDI note sounds. Takes time by the pitches that are added, not by all there are. */
export class PitchSums {
  readonly #ticks = new Float64Array(pitchCount);
  readonly #weights = new Float64Array(pitchCount);
  readonly #added = new PitchSet();

  add(pitch: number, ticks: number, weight: number): void {
    this.#ticks[pitch] = (this.#ticks[pitch] ?? 0) + ticks;
    this.#weights[pitch] = (this.#weights[pitch] ?? 0) + weight;
    this.#added.add(pitch);
  }

  /** Puts the pitches, as shares of a length, behind those of `columns`; begins anew with none. */
  moveTo(columns: PitchColumns, length: number): void {
    const added = this.#added;
    for (let pitch = added.from(0); pitch >= 0; pitch = added.from(pitch + 1)) {
      const ticks = this.#ticks[pitch] ?? 0;
      if (ticks > 0) {
        columns.pitch.push(pitch);
        columns.share.push(Math.min(1, ticks / length));
        columns.weight.push(Math.min(1, (this.#weights[pitch] ?? 0) / length));
      }
      this.#ticks[pitch] = 0;
      this.#weights[pitch] = 0;
      added.delete(pitch);
    }
  }
}

/** A set of MIDI notes, a bit for each. */
export class PitchSet {
  readonly #words = new Int32Array(pitchCount / 32);

  add(pitch: number): void {
    this.#words[pitch >> 5] = (this.#words[pitch >> 5] ?? 0) | (1 << (pitch & 31));
  }

  delete(pitch: number): void {
    this.#words[pitch >> 5] = (this.#words[pitch >> 5] ?? 0) & ~(1 << (pitch & 31));
  }

  /** The lowest pitch of the set that is at least `pitch`; −1 where there is none. */
  from(pitch: number): number {
    let bits = -1 << (pitch & 31);
    for (let word = pitch >> 5; word < this.#words.length; word++) {
      bits &= this.#words[word] ?? 0;
      if (bits !== 0) return 32 * word + 31 - Math.clz32(bits & -bits);
      bits = -1;
    }
    return -1;
  }
}
