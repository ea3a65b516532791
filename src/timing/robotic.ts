import { measureChords } from './robotic/chords.js';
import { measureDynamics } from './robotic/dynamics.js';
import { measureLengths } from './robotic/lengths.js';
import { measureOnsets } from './robotic/onsets.js';
import type { Measure, Performance } from './robotic/types.js';
import { measureVelocities } from './robotic/velocities.js';

export type { BarRange, Measure, MeasureName, Performance } from './robotic/types.js';

/**
 * What sounds mechanical in a performance, with the bars where it does. Each measure's threshold, and the reason
 * for it, stands with its measure. Linear in notes.
 */
export function measureRobotic(performance: Performance): readonly Measure[] {
  return [measureOnsets, measureChords, measureVelocities, measureLengths, measureDynamics].map((measure) =>
    measure(performance),
  );
}
