import type { GridModel } from './types.js';

/**
 * The ways of laying a beat's onsets on a grid, by number: which grid it is, whether the beat's first place is taken by
 * an onset that was played ahead of it, and whether the last onset belongs to the next beat's first place.
 */
export function wayOf(grid: number, startTaken: boolean, takesNext: boolean): number {
  return 4 * grid + (startTaken ? 2 : 0) + (takesNext ? 1 : 0);
}

export function gridOf(way: number): number {
  return way >> 2;
}

export function isStartTaken(way: number): boolean {
  return (way & 2) !== 0;
}

export function takesNext(way: number): boolean {
  return (way & 1) !== 0;
}

/** The first grid for a beat with more onsets than the model's hold; then 16, 24, 32, 48 and so on. */
const finer = 12;

/** A model's grids by number; behind them one that is as fine as a beat needs. */
export class Grids {
  /** How many there are. */
  readonly length: number;
  readonly #parts: readonly number[];
  readonly #costs: readonly number[];
  readonly #largest: number;

  constructor(model: GridModel) {
    this.#parts = [...model.parts.keys()];
    this.#costs = [...model.parts.values(), model.finer];
    this.#largest = Math.max(...this.#parts);
    this.length = this.#costs.length;
  }

  /** Into how many parts a grid divides a beat with so many onsets; 0 for one that is finer than this beat needs. */
  parts(grid: number, onsets: number): number {
    const parts = this.#parts[grid];
    if (parts !== undefined) return parts;
    return onsets < this.#largest ? 0 : finerParts(onsets);
  }

  cost(grid: number): number {
    return this.#costs[grid] ?? 0;
  }
}

function finerParts(onsets: number): number {
  let parts = finer;
  while (parts - 1 < onsets) parts = parts % 3 === 0 ? (parts / 3) * 4 : (parts / 2) * 3;
  return parts;
}
