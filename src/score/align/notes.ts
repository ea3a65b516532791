/** A note of a score as it is to be played. */
export interface WrittenNote {
  /** From the beginning, in any unit that runs evenly in the score. */
  readonly time: number;
  /** MIDI note. */
  readonly pitch: number;
  readonly isGrace: boolean;
}

/** A note of a take. */
export interface TakenNote {
  /** Onset from the beginning. Unit: ms. */
  readonly ms: number;
  /** MIDI note. */
  readonly pitch: number;
}

/** Which note of a take is which of the score. All are indices into what was given, in rising order of the first. */
export interface Alignment {
  readonly pairs: readonly Pair[];
  /** Written and not played. */
  readonly missing: readonly number[];
  /** Played and not written. */
  readonly extra: readonly number[];
}

export interface Pair {
  readonly written: number;
  readonly taken: number;
}

/** Notes written for one moment. */
export interface Chord {
  readonly time: number;
  /** Indices into the written notes. */
  readonly notes: readonly number[];
}

/** The chords of a score, in order of time. */
export function chordsOf(written: readonly WrittenNote[]): readonly Chord[] {
  const order = written.map((_, index) => index).sort((a, b) => timeOf(written, a) - timeOf(written, b));
  const chords: { time: number; notes: number[] }[] = [];
  for (const index of order) {
    const time = timeOf(written, index);
    const last = chords.at(-1);
    if (last?.time === time) last.notes.push(index);
    else chords.push({ time, notes: [index] });
  }
  return chords;
}

function timeOf(written: readonly WrittenNote[], index: number): number {
  return written[index]?.time ?? 0;
}

/** An alignment from its pairs. */
export function alignmentOf(pairs: readonly Pair[], written: number, taken: number): Alignment {
  const paired = new Set(pairs.map((pair) => pair.written));
  const used = new Set(pairs.map((pair) => pair.taken));
  return {
    pairs: [...pairs].sort((a, b) => a.written - b.written),
    missing: Array.from({ length: written }, (_, index) => index).filter((index) => !paired.has(index)),
    extra: Array.from({ length: taken }, (_, index) => index).filter((index) => !used.has(index)),
  };
}
