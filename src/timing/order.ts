/** Tells where an onset of a channel or a pitch was, and where it was put: the latest so far, by number. */
class Latest {
  // Before the first is a tick before the file, behind which everything may start.
  readonly #onsets: Float64Array;
  readonly #ticks: Float64Array;

  constructor(numbers: number) {
    this.#onsets = new Float64Array(numbers).fill(-1);
    this.#ticks = new Float64Array(numbers).fill(-1);
  }

  /** The earliest tick that an onset may have behind it: what lies on one tick already may stay there. */
  earliest(number: number, onset: number): number {
    return (this.#ticks[number] ?? 0) + (onset > (this.#onsets[number] ?? 0) ? 1 : 0);
  }

  put(number: number, onset: number, tick: number): void {
    this.#onsets[number] = Math.max(onset, this.#onsets[number] ?? 0);
    this.#ticks[number] = Math.max(tick, this.#ticks[number] ?? 0);
  }
}

/** A note where it stands now. */
export interface Standing {
  /** 0–15. */
  readonly channel: number;
  readonly pitch: number;
  readonly onset: number;
}

/**
 * Keeps the onsets of each output channel, and the strikes of each pitch, in order while they are moved earlier. The
 * onsets must come in order.
 */
export class OrderKeeper {
  readonly #channels = new Latest(16);
  readonly #pitches = new Latest(128);

  /** The earliest tick that a note may have, behind what is before it on its channel and of its pitch. */
  earliest(note: Standing): number {
    return Math.max(this.behindNote(note), this.behindPitch(note));
  }

  /** A tick behind the onset before its own on its channel, so that a switch can stand between them. */
  behindNote({ channel, onset }: Standing): number {
    return this.#channels.earliest(channel, onset);
  }

  /** A tick behind its own pitch's strike before it, on whatever channel: it stays plain which release is whose. */
  behindPitch({ pitch, onset }: Standing): number {
    return this.#pitches.earliest(pitch, onset);
  }

  /** Tells where a note was put. */
  put({ channel, pitch, onset }: Standing, tick: number): void {
    this.#channels.put(channel, onset, tick);
    this.#pitches.put(pitch, onset, tick);
  }
}
