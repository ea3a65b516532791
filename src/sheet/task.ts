import type { CompiledPart } from '../compile/index.js';
import type { Diagnostic } from '../diagnostics/index.js';
import type { Song, Track } from '../midi/index.js';

/** A compiled part, and what a cue says of it. */
export interface SheetJob {
  readonly compiled: CompiledPart;
  /** The part's name in the cue; its track's, where there is no cue. */
  readonly name: string;
  /** Where it is a layer of the part of that name. */
  readonly layer?: string;
  /** Which notes of the part a layer doubles: indices. */
  readonly doubles?: ReadonlySet<number>;
  /** The channel of the part's notes that it doubles, 0–15; its own, if absent. */
  readonly doublesChannel?: number;
}

/** What a sheet is made from. */
export interface SheetTask {
  readonly title: string;
  /** The music with everything but switches in it. */
  readonly song: Song;
  /** Tracks whose notes stand where they are now, by number. */
  readonly tracks: ReadonlyMap<number, Track>;
  readonly jobs: readonly SheetJob[];
  readonly diagnostics: readonly Diagnostic[];
}
