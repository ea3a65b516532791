import type { BarRange, Clock, Notes, Onsets } from '../../midi/index.js';

/** A part as it was played. */
export interface Performance {
  readonly clock: Clock;
  readonly notes: Notes;
  /** What of them was struck together. */
  readonly onsets: Onsets;
  /** Ticks, in order, of the controller events that shape its loudness while notes are held. */
  readonly dynamics: readonly number[];
}

export type MeasureName =
  | 'exact-onsets'
  | 'unspread-chords'
  | 'same-velocities'
  | 'same-lengths'
  | 'no-dynamics';

/** One thing that makes a performance sound mechanical. */
export interface Measure {
  readonly measure: MeasureName;
  /** How many of what was looked at (onsets, chords, notes, bars) are like that. */
  readonly count: number;
  readonly of: number;
  /** Where there are enough of them, close enough together, to be heard; empty in a file without bars. */
  readonly bars: readonly BarRange[];
}
