import type { Clock } from '../midi/index.js';
import type { LateNote } from './compensate.js';
import { startToSpeakAt } from './delay.js';

/**
 * How many bars have to be put before the music so that no note has to start before the file: bars of the first
 * time signature at the first tempo. 0 where none is needed; null where the file has no bars.
 */
export function prerollBars(
  notes: readonly Pick<LateNote, 'onset' | 'speaksAfter'>[],
  clock: Clock,
): number | null {
  const barTicks = clock.barStart(2);
  if (barTicks === null) return null;
  let missing = 0;
  for (const { onset, speaksAfter } of notes) {
    missing = Math.max(missing, -startToSpeakAt(onset, speaksAfter, clock).tick);
  }
  return Math.ceil(missing / barTicks);
}
