import type { BeatFigure, Figure } from './types.js';

const NAMES: ReadonlyMap<number, Figure> = new Map([
  [1, 'beat'],
  [2, 'eighths'],
  [3, 'triplets'],
  [4, 'sixteenths'],
  [6, 'sextuplets'],
  [8, 'thirty-seconds'],
]);

/**
 * Names a beat by the places that its onsets take: the coarsest subdivision that holds them all.
 *
 * @param places from 0, below `parts`, in parts of the beat
 */
export function figureOf(beat: number, places: readonly number[], parts: number): BeatFigure {
  for (const [coarser, figure] of NAMES) {
    if (parts % coarser !== 0) continue;
    const width = parts / coarser;
    if (places.some((place) => place % width !== 0)) continue;
    const inner = places.filter((place) => place > 0);
    const dotted = coarser === 4 && inner.length === 1;
    return { beat, figure: dotted ? 'dotted' : figure, parts: coarser };
  }
  return { beat, figure: 'finer', parts };
}
