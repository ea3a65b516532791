import type { Clock } from './clock/index.js';

/** The notes of one track on one channel. */
export interface Part {
  /** Counted from 1 in file order. */
  readonly track: number;
  readonly trackName: string;
  /** 0–15. */
  readonly channel: number;
}

/** A length both ways: real time through the tempo map, and ticks. Endless is Infinity in both. */
export interface Span {
  readonly ms: number;
  readonly ticks: number;
}

/** Values of controllers by their numbers; undefined for one that was never set. */
export interface ControllerValues {
  get(number: number): number | undefined;
}

/** A note-on and its release. Indices are into the track's events; offIndex is −1 where none came. */
export interface PairedNote {
  readonly onIndex: number;
  readonly offIndex: number;
  readonly tick: number;
  readonly endTick: number;
  readonly pitch: number;
  readonly velocity: number;
}

/** A note as it was played, with everything that the rules may ask about it. */
export interface MeasuredNote extends PairedNote {
  /** Index of its onset in the line. */
  readonly onset: number;

  /** Onset to release; to the pedal's release where the map says that it lengthens. */
  readonly held: Span;
  /** Its onset to the line's next; its held time for the last. */
  readonly pace: Span;
  /** Held ÷ pace, 1 for the whole; before a rest, of the interval of its neighbours, and at most 1. */
  readonly heldShare: number;
  /** Silence before its onset; endless for the first. */
  readonly restBefore: Span;
  /** Silence after its onset's notes; endless for the last. */
  readonly restAfter: Span;
  /** Held at or past the next onset, less 10 ms. */
  readonly overlapsNext: boolean;
  /** The previous onset's top note was held at or past this onset, less 10 ms. */
  readonly overlapsPrevious: boolean;
  /** Semitones, absolute, from the previous onset's top note; null for the first onset. */
  readonly leap: number | null;
  readonly repeatsPrevious: boolean;
  readonly repeatsNext: boolean;
  /** How many notes its onset has. */
  readonly chord: number;
  /** The value of each controller in force at its note-on on the part's channel, of those that were set. */
  readonly controllers: ControllerValues;
  /** The sustain pedal at its note-on. */
  readonly pedalDown: boolean;
  /** Canonical names of the marks that it carries. */
  readonly marks: ReadonlySet<string>;
}

/** Notes struck together. Ticks: `tick` is the earliest note-on, `lastTick` the latest. */
export interface Onset {
  readonly index: number;
  readonly tick: number;
  readonly lastTick: number;
  readonly pace: Span;
  readonly notes: readonly MeasuredNote[];
  /** The note of highest pitch. */
  readonly top: MeasuredNote;
}

/** A part, measured. Notes stand in order of onset, then of file. */
export interface Line {
  /** The MIDI file's name, for messages. */
  readonly file: string;
  readonly part: Part;
  readonly clock: Clock;
  readonly notes: readonly MeasuredNote[];
  readonly onsets: readonly Onset[];
}
