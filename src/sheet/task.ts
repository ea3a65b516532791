import type { CompiledPart } from '../compile/index.js';
import type { Diagnostic } from '../diagnostics/index.js';
import type { BarRange, Song, Track } from '../midi/index.js';

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
  /** What of its level brings its measured library to the others. Unit: dB. */
  readonly broughtBy?: number;
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
  /** Which of it is shown; chords and balance are of all. */
  readonly shown?: Shown;
  /** Whether parts that rest all through a system have a staff in it, too. */
  readonly resting?: boolean;
}

/** A part of a sheet. */
export interface Shown {
  /** The names of parts that have a staff; all of them, where there are none. */
  readonly parts: readonly string[];
  /** Bars; all of them, if absent. */
  readonly bars?: BarRange;
}

/** The jobs that have a staff of their own on the sheet. */
export function staffJobs({ jobs, shown }: Pick<SheetTask, 'jobs' | 'shown'>): readonly SheetJob[] {
  const names = new Set(shown?.parts);
  return jobs.filter(({ layer, name }) => layer === undefined && (names.size === 0 || names.has(name)));
}
