import type { BarRange, Clock } from '../../midi/index.js';

/** A note as it was played, to be written down. */
export interface NoteToNotate {
  /** An XML name, unique in the cue; the written note's first head carries it. */
  readonly id: string;
  readonly tick: number;
  readonly endTick: number;
  /** MIDI note; 60 is middle C. */
  readonly pitch: number;
  /** Its name's place on the line of fifths (F −1, C 0, G 1, F♯ 6); found from the key signature where it is absent. */
  readonly fifths?: number;
}

/** A part, to be written on one staff. */
export interface StaffToNotate {
  /** The part's name; any text. */
  readonly label: string;
  /** In order of tick. */
  readonly notes: readonly NoteToNotate[];
  /** Texts above the staff, each at the note with that id. */
  readonly words: readonly { readonly id: string; readonly text: string }[];
  /** Written with a percussion clef; pitches stand as in a treble clef, moved by whole octaves onto the staff. */
  readonly percussion?: boolean;
}

/** Played parts, to be written as one score. */
export interface ScoreToNotate {
  /** Has bars: its `ticksPerWhole` is not null. */
  readonly clock: Clock;
  readonly staves: readonly StaffToNotate[];
  /**
   * Key signatures, each from its tick on, in order; sharps are positive, flats negative. The first holds from the
   * beginning; a change takes effect at the next bar line.
   */
  readonly keys: readonly { readonly tick: number; readonly fifths: number }[];
  /** Written above the top staff. */
  readonly chords: readonly { readonly tick: number; readonly text: string }[];
  /** The bars reach at least up to here. */
  readonly endTick: number;
  /** Bars that have systems of their own, and are the only ones that are drawn; all of them, if absent. */
  readonly drawn?: BarRange;
  /** Whether staves that rest all through a system are drawn, too. */
  readonly resting?: boolean;
}

/** A bar of the written score, or many in which nothing begins or ends, drawn as one. */
export interface NotatedBar {
  /** The number of the first, from 1. */
  readonly bar: number;
  /** How many they are. */
  readonly bars: number;
  readonly tick: number;
  readonly endTick: number;
  /** The system that it stands in, from 0. */
  readonly system: number;
}

/** Some systems of a score. */
export interface Excerpt {
  /** With the staves that the first of them has. */
  readonly mei: string;
  /** How many systems before those that were asked for: one, with the bar before them, unless they are the first. */
  readonly before: 0 | 1;
}

/** A written score. */
export interface Notation {
  /** The Music Encoding Initiative's XML, version 5.0, with all staves; written when it is asked for. */
  readonly mei: string;
  /** The systems from one up to another, which is left out, as an MEI text of their own. */
  readonly excerpt: (from: number, to: number) => Excerpt;
  readonly bars: readonly NotatedBar[];
  /** The systems that are drawn: from the first up to the last, which is left out. */
  readonly drawn: { readonly from: number; readonly to: number };
  /** For each system the indices of the staves that it has. */
  readonly shown: readonly (readonly number[])[];
  /** Where each element stands: id of a note's first head, of its tied continuations, of a rest → its written tick. */
  readonly positions: ReadonlyMap<string, number>;
}
