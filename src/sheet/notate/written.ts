import type { Clock } from '../../midi/index.js';
import type { Clef } from './clef.js';
import type { Measure } from './measures.js';
import type { Value } from './values.js';
import type { VoiceEvent } from './voices.js';

/** Values that are played in the time of other ones: `num` in the time of `numbase`. */
export interface Tuplet {
  readonly start: number;
  readonly end: number;
  readonly num: number;
  readonly numbase: number;
}

/** One written value: of notes with one stem, of a rest, or of empty space. */
export interface Piece {
  readonly start: number;
  readonly end: number;
  readonly value: Value;
  /** undefined for a rest and for space. */
  readonly event: VoiceEvent | undefined;
  /** Space, where the other layer shows what there is. */
  readonly isSpace: boolean;
  /** For notes: 0 for the heads, then 1, 2 … for their tied continuations. */
  readonly nth: number;
  readonly tuplet: Tuplet | undefined;
}

/** Pieces that fill a bar. */
export type Layer = readonly Piece[];

/** One staff of one bar: no layer where the bar is empty, the upper layer first where there are two. */
export type StaffBar = readonly Layer[];

/** A staff, ready to be put into MEI. */
export interface WrittenStaff {
  readonly label: string;
  readonly clef: Clef;
  /** Texts by the id of the note that they stand at. */
  readonly words: ReadonlyMap<string, string>;
  readonly bars: readonly StaffBar[];
  /** The indices of the measures of many bars through which notes are held. */
  readonly held: ReadonlySet<number>;
}

/** A chord's name at its tick. */
export interface ChordName {
  readonly tick: number;
  readonly text: string;
}

/** A score, ready to be put into MEI. Lists by bar are as long as `measures`. */
export interface WrittenScore {
  readonly clock: Clock;
  readonly measures: readonly Measure[];
  /** For each bar its system, from 0. */
  readonly systems: readonly number[];
  /** For each system the indices of the staves that it has. */
  readonly shown: readonly (readonly number[])[];
  /** For each bar its key signature: sharps, flats negative. */
  readonly fifths: readonly number[];
  readonly staves: readonly WrittenStaff[];
  /** For each bar the chords named in it. */
  readonly chords: readonly (readonly ChordName[])[];
}

/** The id of an event's head or of its tied continuation. */
export function headId(id: string, nth: number): string {
  return nth === 0 ? id : `${id}-${nth + 1}`;
}
