import type { Clock } from '../midi/index.js';
import type { LateNotes } from './compensate.js';
import { startToSpeakAt } from './delay.js';

/**
 * How many bars have to be put before the music so that no note has to start before the file: bars of the first
 * time signature at the first tempo. 0 where none is needed; null where the file has no bars.
 */
export function prerollBars(
  { length, onset, speaksAfter }: Pick<LateNotes, 'length' | 'onset' | 'speaksAfter'>,
  clock: Clock,
): number | null {
  const barTicks = clock.barStart(2);
  if (barTicks === null) return null;
  let missing = 0;
  for (let note = 0; note < length; note++)
    missing = Math.max(missing, -startToSpeakAt(onset[note] ?? 0, speaksAfter(note), clock).tick);
  return Math.ceil(missing / barTicks);
}
