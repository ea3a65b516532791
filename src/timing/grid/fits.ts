import { assignPlaces } from './assign.js';
import type { GridModel, PlayedOnset } from './types.js';

/** The onsets that were played within one beat. */
export interface BeatOnsets {
  readonly beat: number;
  readonly onsets: readonly PlayedOnset[];
}

/** One way of laying a beat's onsets on a grid. */
export interface Fit {
  readonly parts: number;
  /** The beat's first place is taken by an onset that was played ahead of it. */
  readonly startTaken: boolean;
  /** The last onset belongs to the next beat's first place. */
  readonly takesNext: boolean;
  readonly cost: number;
}

/** The first grid for a beat with more onsets than the model's hold; then 16, 24, 32, 48 and so on. */
const FINER = 12;

/** All the ways of laying a beat's onsets on the model's grids, with what each costs. */
export function fitsOf(beat: BeatOnsets, model: GridModel): readonly Fit[] {
  const fits: Fit[] = [];
  const largest = Math.max(...model.parts.keys());
  for (const [parts, cost] of model.parts) addFits(fits, beat, parts, cost, model);
  if (beat.onsets.length >= largest) {
    let parts = FINER;
    while (parts - 1 < beat.onsets.length) parts = parts % 3 === 0 ? (parts / 3) * 4 : (parts / 2) * 3;
    addFits(fits, beat, parts, model.finer, model);
  }
  return fits;
}

function addFits(fits: Fit[], beat: BeatOnsets, parts: number, cost: number, model: GridModel): void {
  for (const startTaken of [false, true]) {
    for (const takesNext of [false, true]) {
      const places = placesIn(beat, parts, startTaken, takesNext);
      if (!places || (places.at(-1) === parts) !== takesNext) continue;
      fits.push({ parts, startTaken, takesNext, cost: cost + misfit(beat, places, parts, model.jitterMs) });
    }
  }
}

/** The places of a beat's onsets, in parts of the beat from 0; undefined where there is no room. */
export function placesIn(
  beat: BeatOnsets,
  parts: number,
  startTaken: boolean,
  takesNext: boolean,
): readonly number[] | undefined {
  const positions = beat.onsets.map((onset) => (onset.beat - beat.beat) * parts);
  return assignPlaces(positions, startTaken ? 1 : 0, takesNext ? parts : parts - 1);
}

/** Minus the log-likelihood of normally distributed distances, without its constant. */
function misfit(beat: BeatOnsets, places: readonly number[], parts: number, jitterMs: number): number {
  let sum = 0;
  beat.onsets.forEach((onset, index) => {
    const distance = (onset.beat - beat.beat - (places[index] ?? 0) / parts) * onset.msPerBeat;
    sum += distance * distance;
  });
  return sum / (2 * jitterMs * jitterMs);
}
