import type { MeasuredNote } from '../../midi/index.js';
import type { NearBound } from './nearby.js';

/** Why steadiness gave a note another articulation than the plain ladder does. */
export interface Kept {
  /** The bounds that it lies near. */
  readonly near: readonly NearBound[];
  /** How many onsets in a row before it, and after it, have the same articulation. */
  readonly before: number;
  readonly after: number;
}

/** What one note will sound with, and why. */
export interface Decision {
  readonly note: MeasuredNote;
  /** The note of its chord that decided for it; absent where it decided itself. */
  readonly decidedBy?: MeasuredNote;
  /** The articulation's name in the map. */
  readonly articulation: string;
  /** Index of the rule that decided; 'marked' where a mark in the music decided by itself. */
  readonly rule: number | 'marked';
  /** The rule that the plain ladder gave, where steadiness kept the note with its neighbours instead. */
  readonly insteadOf?: number;
  /** There where `insteadOf` is. */
  readonly kept?: Kept;
  /** What the onset before was given, where there is one. */
  readonly previous?: string;
  /** The mark that decided, where one did. */
  readonly mark?: string;
}
