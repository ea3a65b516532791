import { markRuns } from './runs.js';
import { tally } from './tally.js';
import type { Measure, Performance } from './types.js';

/**
 * Eight successive notes of one velocity. A player's strokes vary by some steps; where each of ten velocities is as
 * likely, eight equal ones come about once in ten million. Own figure, no source.
 */
export const sameVelocities = { run: 8 } as const;

/** Notes in runs of one velocity. */
export function measureVelocities({ clock, notes }: Performance): Measure {
  const mechanical = markRuns(notes.velocity, 1, sameVelocities.run);
  return tally('same-velocities', { ticks: notes.tick, mechanical }, clock, { share: 0, least: 1 });
}
