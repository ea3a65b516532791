import type { Clock } from '../midi/index.js';
import { struckTogether } from './struck.js';
import type { SketchNote, Stroke } from './types.js';

/** Notes this close are one stroke, of two sticks say. Unit: ms; the usual window of a chord. */
const together = 35;

/**
 * The strokes of a recorded rhythm, whatever keys it was played on: each begins with the first of the notes that were
 * struck together, is as loud as the loudest and as long as the longest.
 */
export function strokesOf(
  notes: readonly Pick<SketchNote, 'tick' | 'endTick' | 'velocity'>[],
  clock: Pick<Clock, 'ms'>,
): readonly Stroke[] {
  const inOrder = [...notes].sort((a, b) => a.tick - b.tick);
  return struckTogether(inOrder, clock, together).map((group) => ({
    tick: group[0]?.tick ?? 0,
    endTick: group.reduce((end, note) => Math.max(end, note.endTick), 0),
    velocity: group.reduce((most, note) => Math.max(most, note.velocity), 1),
  }));
}
