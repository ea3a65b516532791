// The grid that a performance was played to.
import { PlaceAssigner } from './assign.js';
import { type Beats, beatNumber, firstOnset, inBeats } from './beats.js';
import { figureOf } from './figure.js';
import { gridModel } from './model.js';
import { cheapestPath } from './path.js';
import type { BeatFigure, FoundGrid, GridModel, PlayedOnsets } from './types.js';
import { Grids, gridOf, isStartTaken, takesNext } from './ways.js';

export { nearestGivenPlaces } from './given.js';
export { gridModel } from './model.js';
export type { BeatFigure, Figure, FoundGrid, GridModel, PlayedOnsets } from './types.js';

/**
 * Finds the grid that a performance was played on: for every beat the subdivision, and for every onset its place.
 * Least squares of the distances in milliseconds, with a cost for finer grids and for changing from beat to beat;
 * no two onsets share a place. An onset played ahead of a beat may have its place on that beat. Linear in onsets.
 *
 * @param onsets beats counted so that a beat begins at each whole number
 * @param model costs in nats; `jitterMs` is the player's standard deviation
 */
export function findGrid(onsets: PlayedOnsets, model: GridModel = gridModel): FoundGrid {
  const beats = inBeats(onsets.beats);
  const grids = new Grids(model);
  const laid = { beats, grids, ways: cheapestPath(onsets, beats, grids, model) };
  const inParts = placesInParts(onsets.beats, laid);
  const places = new Float64Array(onsets.beats.length);
  for (let beat = 0; beat < beats.length; beat++)
    for (let onset = firstOnset(beats, beat); onset < firstOnset(beats, beat + 1); onset++)
      places[onset] = beatNumber(beats, beat) + (inParts[onset] ?? 0) / partsOf(laid, beat);
  let figures: readonly BeatFigure[] | undefined;
  return {
    places,
    get beats() {
      figures ??= figuresOf(laid, inParts);
      return figures;
    },
  };
}

/** Beats, and the way in which each was laid on a grid. */
interface Laid {
  readonly beats: Beats;
  readonly grids: Grids;
  readonly ways: Uint8Array;
}

function wayAt({ ways }: Laid, beat: number): number {
  return ways[beat] ?? 0;
}

/** Into how many parts a beat is divided. */
function partsOf(laid: Laid, beat: number): number {
  const onsets = firstOnset(laid.beats, beat + 1) - firstOnset(laid.beats, beat);
  return laid.grids.parts(gridOf(wayAt(laid, beat)), onsets);
}

/** The place of each onset in parts of its beat, from 0. */
function placesInParts(onsets: Float64Array, laid: Laid): Float64Array {
  const { beats } = laid;
  const found = new Float64Array(onsets.length);
  const places = new PlaceAssigner();
  for (let beat = 0; beat < beats.length; beat++) {
    const [first, end] = [firstOnset(beats, beat), firstOnset(beats, beat + 1)];
    const [way, parts] = [wayAt(laid, beat), partsOf(laid, beat)];
    places.pool(onsets, first, end, beatNumber(beats, beat), parts);
    const [low, high] = [isStartTaken(way) ? 1 : 0, takesNext(way) ? parts : parts - 1];
    for (let onset = first; onset < end; onset++) found[onset] = places.at(onset - first, low, high);
  }
  return found;
}

/** The names of all beats in which an onset has its place. */
function figuresOf(laid: Laid, inParts: Float64Array): readonly BeatFigure[] {
  const { beats } = laid;
  const named = new Map<number, { readonly places: readonly number[]; readonly parts: number }>();
  for (let beat = 0; beat < beats.length; beat++) {
    const [number, way, parts] = [beatNumber(beats, beat), wayAt(laid, beat), partsOf(laid, beat)];
    const own = Array.from(inParts.subarray(firstOnset(beats, beat), firstOnset(beats, beat + 1)));
    const places = own.filter((place) => place < parts);
    if (isStartTaken(way)) places.unshift(0);
    if (places.length > 0) named.set(number, { places, parts });
    if (takesNext(way)) named.set(number + 1, { places: [0], parts: 1 });
  }
  return [...named].map(([beat, { places, parts }]) => figureOf(beat, places, parts));
}
