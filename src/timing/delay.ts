import type { Clock, Duration } from '../midi/index.js';

/** Where a note should start. */
export interface Wanted {
  /** Milliseconds from the start of the file; negative where it lies before it. */
  readonly ms: number;
  /** The nearest tick; negative where it lies before the file, at its first tempo. */
  readonly tick: number;
}

/**
 * Where a note has to start to be heard at `onset`: a time is taken off in real time through the tempo map, a
 * fraction of a whole note in ticks. A file that counts SMPTE frames knows no whole notes, so that a fraction
 * takes nothing off there.
 */
export function startToSpeakAt(onset: number, speaksAfter: Duration, clock: Clock): Wanted {
  if (speaksAfter.unit === 'ms') {
    if (speaksAfter.ms === 0) return { ms: clock.ms(onset), tick: onset };
    const ms = clock.ms(onset) - speaksAfter.ms;
    return { ms, tick: ms < 0 ? Math.round(ms / clock.ms(1)) : clock.tickAt(ms) };
  }
  const whole = clock.ticksPerWhole ?? 0;
  const tick = onset - Math.round((speaksAfter.numerator * whole) / speaksAfter.denominator);
  return { ms: tick < 0 ? tick * clock.ms(1) : clock.ms(tick), tick };
}
