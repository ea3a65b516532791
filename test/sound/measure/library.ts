import type { ProbedArticulation, ProbedLibrary } from '../../../src/sound/measure/index.js';

/** An invented articulation: sustained and shaped by the controller unless told otherwise. */
export function articulation(name: string, more: Partial<ProbedArticulation> = {}): ProbedArticulation {
  return { name, switch: [], loudness: 'controller', sustains: true, ...more };
}

/** An invented library: two octaves, controller 1. */
export function libraryOf(
  articulations: readonly ProbedArticulation[],
  more: Partial<ProbedLibrary> = {},
): ProbedLibrary {
  return {
    articulations,
    range: { low: 48, high: 72 },
    middleC: 4,
    isMomentary: false,
    tapMs: 30,
    switchVelocity: 100,
    controller: 1,
    ...more,
  };
}

/** A short one, louder with velocity. */
export function short(name: string, more: Partial<ProbedArticulation> = {}): ProbedArticulation {
  return articulation(name, { loudness: 'velocity', sustains: false, ...more });
}
