/** A score as it is played: repeats made, every time a tick from the beginning. */
export interface Performance {
  readonly title: string;
  readonly ppq: number;
  readonly bars: readonly PlayedBar[];
  readonly tempi: readonly { readonly tick: number; readonly quartersPerMinute: number }[];
  readonly parts: readonly PlayedPart[];
  readonly endTick: number;
}

export interface PlayedBar {
  readonly tick: number;
  readonly length: number;
  /** Index into the score's measures. */
  readonly measure: number;
  /** As it is printed. */
  readonly number: string;
  readonly pass: number;
  readonly metre: { readonly beats: number; readonly beatType: number } | null;
}

export interface PlayedPart {
  readonly id: string;
  readonly name: string;
  /** 0–15. */
  readonly channel: number;
  /** In order of onset. */
  readonly notes: readonly PlayedNote[];
  /** Texts in the form `[name]` and `[name!]`, in order. */
  readonly texts: readonly PlacedText[];
  /** Those of them that are not marks of single notes. */
  readonly lasting: readonly PlacedText[];
  readonly controllers: readonly {
    readonly tick: number;
    readonly number: number;
    readonly value: number;
  }[];
}

export interface PlacedText {
  readonly tick: number;
  readonly text: string;
}

export interface PlayedNote {
  /** Of the written note; notes that are played several times share it. */
  readonly id: string;
  /** Index into the performance's bars. */
  readonly bar: number;
  /** Onset, grace notes and swing counted in. */
  readonly tick: number;
  readonly endTick: number;
  readonly pitch: number;
  readonly velocity: number;
  readonly voice: string;
  readonly staff: number;
  readonly isGrace: boolean;
  /** To be joined to the next note. */
  readonly isSlurred: boolean;
  /** Names of MusicXML 4.0. */
  readonly marks: readonly string[];
  /** How it is played where its signs are not sounds of their own; null for a note without. */
  readonly ornament: PlayedOrnament | null;
}

/** A note's signs as notes. */
export interface PlayedOrnament {
  /** Marks of the note that say the same. */
  readonly marks: readonly string[];
  /** Whether one sound of a library can be it: no roll, no tremolo of two notes, no notes repeated slowly. */
  readonly canBeOneSound: boolean;
  /** In order of onset. */
  readonly notes: readonly {
    readonly tick: number;
    readonly endTick: number;
    readonly pitch: number;
  }[];
}
