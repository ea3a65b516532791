// What makes a performance sound mechanical.
import { measureChords } from './chords.js';
import { measureDynamics } from './dynamics.js';
import { measureLengths } from './lengths.js';
import { measureOnsets } from './onsets.js';
import type { Measure, Performance } from './types.js';
import { measureVelocities } from './velocities.js';

export type { BarRange } from '../../midi/index.js';
export type { Measure, MeasureName, Performance } from './types.js';

/**
 * What sounds mechanical in a performance, with the bars where it does. Each measure's threshold, and the reason
 * for it, stands with its measure. Linear in notes.
 */
export function measureMechanical(performance: Performance): readonly Measure[] {
  return [measureOnsets, measureChords, measureVelocities, measureLengths, measureDynamics].map((measure) =>
    measure(performance),
  );
}
