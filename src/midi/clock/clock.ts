/**
 * Ticks, real time and bars of one sequence. Tempo comes from the file; 120 bpm and 4/4 hold until it says
 * otherwise (Standard MIDI File 1.0). Bars and beats count from 1; a beat is the time signature's lower number.
 */
export interface Clock {
  /** Ticks of a whole note; null where the file counts SMPTE frames, which know no beats. */
  readonly ticksPerWhole: number | null;
  /** Milliseconds from the start of the file to a tick (not rounded). */
  ms(tick: number): number;
  /** The tick nearest to a time in milliseconds; never below 0. */
  tickAt(ms: number): number;
  /** The bar and the beat (both whole, from 1) in which a tick stands; null where there are no bars. */
  position(tick: number): { readonly bar: number; readonly beat: number } | null;
  /** The first tick of a bar (from 1), or of a beat in it; null where there are no bars. */
  barStart(bar: number, beat?: number): number | null;
  /** The bars, but the first, at which the time signature changes, in order; absent where it never does. */
  readonly meterBars?: readonly number[];
}
