import type { RollOrder } from './roll.js';

/** A grid as a fraction of a whole note: 1/16, 1/12. */
export interface GridWidth {
  readonly numerator: number;
  readonly denominator: number;
}

/** What is to be done with a part's timing; everything absent or false is left as it was played. */
export interface TimingOptions {
  /** Start each note earlier by the time that its articulation needs to speak. */
  readonly compensate: boolean;
  /** Give joined notes the overlap that their articulation asks for, and keep to its shortest and longest length. */
  readonly joins: boolean;
  /** How far onsets are moved towards the grid, 0 to 1. */
  readonly pull?: number;
  /** Grids to pull to; found from the playing where absent. */
  readonly grids?: readonly GridWidth[];
  /** How chords are spread: the standard deviation of a player's offset. Unit: ms. */
  readonly roll?: { readonly sdMs: number; readonly order: RollOrder };
  /** The bound on how far single notes that are too exact are moved off the grid, as a standard deviation. Unit: ms. */
  readonly loosenMs?: number;
  readonly seed: number;
}

/** As it was played. */
export const asPlayed: TimingOptions = { compensate: false, joins: false, seed: 1 };

/** Whether options ask for anything at all. */
export function asksForTiming({ compensate, joins, pull, roll, loosenMs }: TimingOptions): boolean {
  return compensate || joins || pull !== undefined || roll !== undefined || loosenMs !== undefined;
}

/** Why a note stands where it does now: what each step moved its onset by, in ms; negative is earlier. */
export interface Move {
  readonly pull?: number;
  readonly roll?: number;
  readonly loosen?: number;
  readonly compensate?: number;
  /** What the release was moved by over and above its onset. */
  readonly release?: number;
}
