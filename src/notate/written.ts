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
  /** Space where the other layer has the rest or the note. */
  readonly isSpace: boolean;
  /** For notes: 0 for the heads, then 1, 2 … for their tied continuations. */
  readonly nth: number;
  readonly tuplet: Tuplet | undefined;
}

/** Pieces that fill a bar. */
export type Layer = readonly Piece[];
