/** One part of one recording that is learned from. */
export interface LearnPiece {
  /** What it is called where people are told of it. */
  readonly name: string;
  /** Ticks in a whole note, by which fractions are measured. */
  readonly ticksPerWhole: number;
}

/**
 * Notes with what was played and what sounded, as columns: a row for each note that decides for itself (the top of each
 * chord, or every note). Rows of a piece stand together, in the order of the music. All columns have `length` rows.
 */
export interface LearnNotes {
  readonly length: number;
  readonly pieces: readonly LearnPiece[];
  /** Index into `pieces`; never falls. */
  readonly piece: ArrayLike<number>;
  /** Names of the articulations that the sketch has. */
  readonly articulations: readonly string[];
  /** What sounded: index into `articulations`, or −1 where it is not known. */
  readonly label: ArrayLike<number>;
  readonly tick: ArrayLike<number>;
  /** From 1. */
  readonly bar: ArrayLike<number>;
  /** From 1, with its fraction. */
  readonly beat: ArrayLike<number>;
  readonly heldMs: ArrayLike<number>;
  readonly heldTicks: ArrayLike<number>;
  /** Onset to the next onset; the last has its held time. */
  readonly paceMs: ArrayLike<number>;
  readonly paceTicks: ArrayLike<number>;
  /** Held ÷ pace, in percent; over 100 it overlaps. */
  readonly heldShare: ArrayLike<number>;
  /** Silence before; Infinity for the first. */
  readonly restBeforeMs: ArrayLike<number>;
  readonly restBeforeTicks: ArrayLike<number>;
  /** Silence after; Infinity for the last. */
  readonly restAfterMs: ArrayLike<number>;
  readonly restAfterTicks: ArrayLike<number>;
  /** 1–127. */
  readonly velocity: ArrayLike<number>;
  /** 0–127. */
  readonly pitch: ArrayLike<number>;
  /** Semitones, absolute, from the previous onset's top note; NaN for the first. */
  readonly leap: ArrayLike<number>;
  /** How many notes are struck together. */
  readonly chord: ArrayLike<number>;
  /** 1 or 0, like the three below. */
  readonly repeatsPrevious: ArrayLike<number>;
  readonly repeatsNext: ArrayLike<number>;
  readonly overlapsNext: ArrayLike<number>;
  readonly overlapsPrevious: ArrayLike<number>;
}
