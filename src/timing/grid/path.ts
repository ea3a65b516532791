import { type BeatOnsets, type Fit, fitsOf } from './fits.js';
import type { GridModel } from './types.js';

interface Step {
  readonly fit: Fit;
  /** The cheapest way here, this beat included. */
  readonly total: number;
  readonly from: Step | undefined;
}

/**
 * The cheapest fit of every beat, given that a beat rather keeps the subdivision of the beat before it: the
 * Viterbi algorithm (Viterbi 1967) over the beats that have onsets. Linear in beats.
 */
export function cheapestPath(beats: readonly BeatOnsets[], model: GridModel): readonly Fit[] {
  let steps: readonly Step[] = [];
  let previous: BeatOnsets | undefined;
  for (const beat of beats) {
    const adjacent = previous !== undefined && beat.beat === previous.beat + 1;
    const next: Step[] = [];
    for (const fit of fitsOf(beat, model)) {
      const step = arrive(fit, steps, previous !== undefined, adjacent, model);
      if (step) next.push(step);
    }
    steps = next;
    previous = beat;
  }
  const fits: Fit[] = [];
  for (let step = cheapest(steps); step; step = step.from) fits.push(step.fit);
  return fits.reverse();
}

function arrive(
  fit: Fit,
  steps: readonly Step[],
  hasPrevious: boolean,
  adjacent: boolean,
  model: GridModel,
): Step | undefined {
  if (!hasPrevious) return fit.startTaken ? undefined : { fit, total: fit.cost, from: undefined };
  let best: Step | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const step of steps) {
    if ((adjacent && step.fit.takesNext) !== fit.startTaken) continue;
    const total = step.total + (step.fit.parts === fit.parts ? 0 : model.change);
    if (total < least) {
      least = total;
      best = step;
    }
  }
  return best && { fit, total: least + fit.cost, from: best };
}

function cheapest(steps: readonly Step[]): Step | undefined {
  let best: Step | undefined;
  for (const step of steps) if (!best || step.total < best.total) best = step;
  return best;
}
