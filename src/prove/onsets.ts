import type { Stage } from './part.js';

/** Where a note begins and ends. */
interface Sounding {
  readonly tick: number;
  readonly endTick: number;
}

/** The share of the time over which a chord was struck, for which all of it must sound on afterwards. */
const soundingOn = 0.7;

/**
 * Tells for melody notes, asked in order, to which onset each belongs: notes are struck together where each lies no
 * further than the map's chord window behind the first, and all of them sound on, once the last was struck, for at least
 * 0.7 of the time over which they were struck.
 */
export function onsetFinder({ clock, map }: Pick<Stage, 'clock' | 'map'>): (note: Sounding) => number {
  const { chordWindow: window } = map;
  let onset = -1;
  let first = 0;
  let ends = 0;
  // In nanoseconds, so that a length that equals a bound in theory equals it here.
  const ms = (from: number, to: number) => Math.round((clock.ms(to) - clock.ms(from)) * 1e6) / 1e6;
  const isInWindow = (tick: number) => {
    if (window.unit === 'ms') return ms(first, tick) <= window.ms;
    const { ticksPerWhole } = clock;
    return ticksPerWhole !== null && (tick - first) * window.denominator <= window.numerator * ticksPerWhole;
  };
  const isTogether = ({ tick, endTick }: Sounding) => {
    if (tick === first) return true;
    const end = Math.min(ends, endTick);
    return isInWindow(tick) && end > tick && ms(tick, end) >= soundingOn * ms(first, tick);
  };
  return (note) => {
    if (onset >= 0 && isTogether(note)) ends = Math.min(ends, note.endTick);
    else {
      onset += 1;
      first = note.tick;
      ends = note.endTick;
    }
    return onset;
  };
}
