import fc from 'fast-check';
import { expect, it } from 'vitest';
import { PlaceAssigner } from '../../../src/timing/grid/assign.js';
import { inBeats } from '../../../src/timing/grid/beats.js';
import { findGrid, type GridModel } from '../../../src/timing/grid/index.js';
import { gridModel } from '../../../src/timing/grid/model.js';
import { cheapestPath } from '../../../src/timing/grid/path.js';
import { Grids, gridOf, isStartTaken, takesNext, wayOf } from '../../../src/timing/grid/ways.js';
import { draws } from '../../support/draws.js';

interface Way {
  readonly way: number;
  readonly parts: number;
  readonly cost: number;
}

/** Every way of laying a beat's onsets on a grid, and what it costs by itself: as `wayOf` and `GridModel` say. */
function waysOf(onsets: Float64Array, beat: number, msPerBeat: number, model: GridModel): readonly Way[] {
  const grids = new Grids(model);
  const assigner = new PlaceAssigner();
  const found: Way[] = [];
  for (let way = 0; way < 4 * grids.length; way++) {
    const parts = grids.parts(gridOf(way), onsets.length);
    const [low, high] = [isStartTaken(way) ? 1 : 0, takesNext(way) ? parts : parts - 1];
    assigner.pool(onsets, 0, onsets.length, beat, parts);
    if (parts === 0 || !assigner.hasRoom(low, high)) continue;
    if ((assigner.last(low, high) === parts) !== takesNext(way)) continue;
    const squares = Array.from(onsets, (onset, index) => {
      return ((onset - beat - assigner.at(index, low, high) / parts) * msPerBeat) ** 2;
    });
    const misfit = squares.reduce((sum, square) => sum + square, 0) / (2 * model.jitterMs ** 2);
    found.push({ way, parts, cost: grids.cost(gridOf(way)) + misfit });
  }
  return found;
}

/** The least that any choice of ways costs from a beat on, by trying each. */
function leastByTrying(
  beats: readonly { readonly number: number; readonly ways: readonly Way[] }[],
  at: number,
  before: Way | undefined,
  change: number,
): number {
  const beat = beats[at];
  if (!beat) return 0;
  const isAdjacent = beats[at - 1]?.number === beat.number - 1;
  const isTaken = isAdjacent && before !== undefined && takesNext(before.way);
  const costs = beat.ways
    .filter(({ way }) => isStartTaken(way) === isTaken)
    .map((way) => {
      const own = way.cost + (before && before.parts !== way.parts ? change : 0);
      return own + leastByTrying(beats, at + 1, way, change);
    });
  return Math.min(...costs);
}

const performances = fc
  .array(fc.double({ min: 0, max: 3.2, noNaN: true }), { minLength: 1, maxLength: 9 })
  .map((beats) => Float64Array.from(beats).sort());

it('no other choice of ways is cheaper', () => {
  fc.assert(
    fc.property(
      performances,
      fc.integer({ min: 100, max: 1500 }),
      fc.constantFrom(0, 0.3, 1, 4),
      (onsets, msPerBeat, change) => {
        const model = { ...gridModel, change };
        const beats = inBeats(onsets);
        const played = { beats: onsets, msPerBeat: new Float64Array(onsets.length).fill(msPerBeat) };
        const each = Array.from({ length: beats.length }, (_, beat) => {
          const own = onsets.subarray(beats.first[beat], beats.first[beat + 1]);
          const number = beats.number[beat] ?? 0;
          return { number, ways: waysOf(own, number, msPerBeat, model) };
        });
        const path = cheapestPath(played, beats, new Grids(model), model);
        const taken = each.map(({ number, ways }, beat) => {
          return { number, ways: ways.filter(({ way }) => way === path[beat]) };
        });
        const cost = leastByTrying(taken, 0, undefined, change);
        expect(cost).toBeLessThan(Number.POSITIVE_INFINITY);
        expect(cost).toBeCloseTo(leastByTrying(each, 0, undefined, change), 9);
      },
    ),
    { seed: 13, numRuns: draws(300) },
  );
});

it('takes a grid that is as fine as a beat needs where its onsets are more than the model has places for', () => {
  const grids = new Grids(gridModel);
  const last = grids.length - 1;
  expect([7, 8, 11, 12, 15, 40].map((onsets) => grids.parts(last, onsets))).toEqual([0, 12, 12, 16, 16, 48]);
  expect(grids.cost(last)).toBe(gridModel.finer);
});

it('says of a way what it is', () => {
  for (const grid of [0, 6])
    for (const start of [false, true])
      for (const next of [false, true]) {
        const way = wayOf(grid, start, next);
        expect([gridOf(way), isStartTaken(way), takesNext(way)]).toEqual([grid, start, next]);
      }
});

it('goes on after a rest as at the beginning', () => {
  const [beats, msPerBeat] = [Float64Array.of(0, 0.98, 5, 5.34, 5.66), new Float64Array(5).fill(500)];
  expect([...findGrid({ beats, msPerBeat }).places]).toEqual([0, 1, 5, 5 + 1 / 3, 5 + 2 / 3]);
});
