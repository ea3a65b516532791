/**
 * Onsets as they were played, in columns: positions in beats (tick ÷ ppq) in rising order, a chord as one onset; and how
 * long a beat lasts at each.
 */
export interface PlayedOnsets {
  readonly beats: Float64Array;
  readonly msPerBeat: Float64Array;
}

/**
 * What a beat is divided into: the coarsest of these that holds all its places. `dotted` is a beat of quarters of
 * a beat used as 3 + 1 or 1 + 3. `finer` is a beat with more onsets than eight places can take.
 */
export type Figure =
  | 'beat'
  | 'eighths'
  | 'triplets'
  | 'dotted'
  | 'sixteenths'
  | 'sextuplets'
  | 'thirty-seconds'
  | 'finer';

/** A beat in which at least one onset has its place. */
export interface BeatFigure {
  /** The beat's number, from 0 at the start of the file. */
  readonly beat: number;
  readonly figure: Figure;
  /** Into how many equal parts the figure divides the beat; 4 for `dotted`. */
  readonly parts: number;
}

/** The grid that was found in a performance. */
export interface FoundGrid {
  /** The place of each onset, in beats; strictly rising, as the onsets are. */
  readonly places: Float64Array;
  /** In order; beats without onsets are left out. They are named when they are first asked for. */
  readonly beats: readonly BeatFigure[];
}

/** What a choice of subdivision costs, in units of log-likelihood (nats). */
export interface GridModel {
  /** The standard deviation of a player's onsets around their places, in milliseconds. */
  readonly jitterMs: number;
  /** The cost of a beat divided into so many parts; 60 divisions at most. */
  readonly parts: ReadonlyMap<number, number>;
  /** The cost of a grid that is finer than all of these; taken only where the onsets do not fit otherwise. */
  readonly finer: number;
  /** The cost of another subdivision than in the beat before. */
  readonly change: number;
}
