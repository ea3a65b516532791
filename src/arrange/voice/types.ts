import type { ArrangeRemark, SketchNote } from '../types.js';

/** From one MIDI note to another, both within it. */
export interface PitchSpan {
  readonly low: number;
  readonly high: number;
}

/** A part of the cue that chords are laid out for. */
export interface VoicePart {
  /** No two parts have the same. */
  readonly name: string;
  /** What it can play: from its map. */
  readonly range: PitchSpan;
  /** Where it plays best; the middle half of its range where it is absent. */
  readonly register?: PitchSpan;
  /** How many players it has; 1 where it is absent. */
  readonly players?: number;
  /**
   * Into how many voices it may be divided: a number, at most one for each player; `as needed` divides the largest
   * sections until every tone of the fullest chord has a voice, with two players a voice at least. 1 where it is absent.
   */
  readonly divisi?: number | 'as needed';
}

/** How chords are laid out. */
export interface VoiceOptions {
  /** `close`: upper voices within an octave; `open`: fourths and fifths, wide below. */
  readonly position: 'open' | 'close';
  /** The part that has the sketch's highest line at its pitches, moved by octaves where the part lies elsewhere. */
  readonly tune?: 'top' | { readonly part: string } | 'none';
  /** Lets parts cross where that moves them less; they never do otherwise. */
  readonly crossing?: boolean;
}

/** What a chord of the sketch is heard as. */
export interface Harmonic {
  /** Pitch classes of its root: as the sketch is heard, then as it might be heard else. Empty where it has no name. */
  readonly roots: readonly number[];
  /** Pitch classes that lead to the tonic of a key, in a chord on its fifth or seventh degree: not to be doubled. */
  readonly leading: readonly number[];
}

/** A line that one voice plays. */
export interface Voice {
  /** Index of its part. */
  readonly part: number;
  readonly range: PitchSpan;
  readonly register: PitchSpan;
}

/** A part with its notes, in order of tick, then of pitch. */
export interface VoicedPart {
  readonly name: string;
  readonly notes: readonly Omit<SketchNote, 'part'>[];
}

/** A sketch that was laid out. */
export interface Voiced {
  /** In the order in which they were given. */
  readonly parts: readonly VoicedPart[];
  /** For each chord the pitch of each voice, low voices first; null where one rests. */
  readonly layouts: readonly { readonly tick: number; readonly pitches: readonly (number | null)[] }[];
  /** For each voice the name of its part, in the order of `layouts`. */
  readonly voices: readonly string[];
  /** What the layouts of the searched voices cost, in hundredths of a semitone's movement. */
  readonly cost: number;
  readonly remarks: readonly ArrangeRemark[];
}
