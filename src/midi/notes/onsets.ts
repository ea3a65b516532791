import type { Clock } from '../clock/index.js';
import type { Duration } from '../duration.js';
import { msBetween } from '../span.js';

/**
 * Groups notes that were struck together. A note joins the onset that is open while it lies no further than
 * `window` after that onset's first note, so that a fast run never grows into one chord.
 */
export function groupOnsets<N extends { readonly tick: number }>(
  notes: readonly N[],
  clock: Clock,
  window: Duration,
): readonly (readonly N[])[] {
  const groups: N[][] = [];
  let open: N[] = [];
  for (const note of notes) {
    const first = open[0];
    if (first && isWithin(clock, first.tick, note.tick, window)) open.push(note);
    else {
      open = [note];
      groups.push(open);
    }
  }
  return groups;
}

function isWithin(clock: Clock, from: number, to: number, window: Duration): boolean {
  if (from === to) return true;
  if (window.unit === 'ms') return msBetween(clock, from, to) <= window.ms;
  return (
    clock.ticksPerWhole !== null && (to - from) * window.denominator <= window.numerator * clock.ticksPerWhole
  );
}
