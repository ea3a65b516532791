import type { Stage } from './part.js';

/**
 * Tells for the ticks of melody notes, asked in order, to which onset each belongs: notes no further than the map's
 * chord window behind an onset's first note are struck together.
 */
export function onsetFinder({ clock, map }: Pick<Stage, 'clock' | 'map'>): (tick: number) => number {
  const { chordWindow: window } = map;
  let onset = -1;
  let first = 0;
  const isTogether = (tick: number) => {
    if (tick === first) return true;
    if (window.unit === 'ms') return clock.ms(tick) - clock.ms(first) <= window.ms;
    const { ticksPerWhole } = clock;
    return ticksPerWhole !== null && (tick - first) * window.denominator <= window.numerator * ticksPerWhole;
  };
  return (tick) => {
    if (onset < 0 || !isTogether(tick)) {
      onset += 1;
      first = tick;
    }
    return onset;
  };
}
