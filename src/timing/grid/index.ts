// The grid that a performance was played to.
import { figureOf } from './figure.js';
import { type BeatOnsets, type Fit, placesIn } from './fits.js';
import { gridModel } from './model.js';
import { cheapestPath } from './path.js';
import type { BeatFigure, FoundGrid, GridModel, PlayedOnset } from './types.js';

export { nearestGivenPlaces } from './given.js';
export { gridModel } from './model.js';
export type { BeatFigure, Figure, FoundGrid, GridModel, PlayedOnset } from './types.js';

/**
 * Finds the grid that a performance was played on: for every beat the subdivision, and for every onset its place.
 * Least squares of the distances in milliseconds, with a cost for finer grids and for changing from beat to beat;
 * no two onsets share a place. An onset played ahead of a beat may have its place on that beat. Linear in onsets.
 *
 * @param onsets in rising order, a chord as one onset; beats counted so that a beat begins at each whole number
 * @param model costs in nats; `jitterMs` is the player's standard deviation
 */
export function findGrid(onsets: readonly PlayedOnset[], model: GridModel = gridModel): FoundGrid {
  const beats = inBeats(onsets);
  const fits = cheapestPath(beats, model);
  const places: number[] = [];
  const named = new Map<number, { places: number[]; parts: number }>();
  beats.forEach((beat, index) => {
    const fit = fits[index];
    if (fit) placeBeat(beat, fit, places, named);
  });
  const figures: BeatFigure[] = [];
  for (const [beat, found] of named) figures.push(figureOf(beat, found.places, found.parts));
  return { places, beats: figures };
}

function placeBeat(
  beat: BeatOnsets,
  fit: Fit,
  places: number[],
  named: Map<number, { places: number[]; parts: number }>,
): void {
  const found = { places: fit.startTaken ? [0] : [], parts: fit.parts };
  let ahead = false;
  for (const place of placesIn(beat, fit.parts, fit.startTaken, fit.takesNext) ?? []) {
    places.push(beat.beat + place / fit.parts);
    if (place === fit.parts) ahead = true;
    else found.places.push(place);
  }
  if (found.places.length > 0) named.set(beat.beat, found);
  if (ahead) named.set(beat.beat + 1, { places: [0], parts: 1 });
}

function inBeats(onsets: readonly PlayedOnset[]): readonly BeatOnsets[] {
  const beats: { beat: number; onsets: PlayedOnset[] }[] = [];
  for (const onset of onsets) {
    const beat = Math.floor(onset.beat);
    const last = beats.at(-1);
    if (last?.beat === beat) last.onsets.push(onset);
    else beats.push({ beat, onsets: [onset] });
  }
  return beats;
}
