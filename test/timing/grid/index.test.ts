import { describe, expect, it } from 'vitest';
import { findGrid } from '../../../src/timing/grid/index.js';
import { some } from '../../support/draws.js';
import {
  beatsRight,
  evenly,
  gaussian8,
  gridTable,
  heldBackSeeds,
  type Kind,
  kinds,
  perform,
  tempi,
  tuningSeeds,
  uniform15,
} from '../performances.js';

const at = (msPerBeat: number, ...beats: number[]) => evenly(msPerBeat, beats);

/** Beats of 500 ms, each onset a little off. */
const figures = (...beats: number[]) =>
  findGrid(at(500, ...beats)).beats.map(({ beat, figure }) => [beat, figure]);

describe('findGrid on beats written by hand', () => {
  it('names each figure', () => {
    expect(figures(0.01, 0.99, 2.02)).toEqual([
      [0, 'beat'],
      [1, 'beat'],
      [2, 'beat'],
    ]);
    expect(figures(0, 0.48, 1.02, 1.5)).toEqual([
      [0, 'eighths'],
      [1, 'eighths'],
    ]);
    expect(figures(0, 0.31, 0.68)).toEqual([[0, 'triplets']]);
    expect(figures(0.01, 0.77, 1.02)).toEqual([
      [0, 'dotted'],
      [1, 'beat'],
    ]);
    expect(figures(0.01, 0.24, 1.02)).toEqual([
      [0, 'dotted'],
      [1, 'beat'],
    ]);
    expect(figures(0.01, 0.27, 0.49, 0.76)).toEqual([[0, 'sixteenths']]);
    expect(figures(0, 0.16, 0.34, 0.51, 0.66, 0.84)).toEqual([[0, 'sextuplets']]);
    expect(figures(0, 0.12, 0.26, 0.37, 0.5, 0.62, 0.76, 0.87)).toEqual([[0, 'thirty-seconds']]);
  });

  it('names a dotted quarter with its eighth, across two beats, eighths', () => {
    expect(figures(0.01, 1.49, 2)).toEqual([
      [0, 'beat'],
      [1, 'eighths'],
      [2, 'beat'],
    ]);
  });

  it('gives an onset played ahead of the beat its place on the beat', () => {
    const found = findGrid(at(500, 0, 0.34, 0.65, 0.98, 1.33, 1.66, 2.97));
    expect([...found.places]).toEqual([0, 1 / 3, 2 / 3, 1, 1 + 1 / 3, 1 + 2 / 3, 3]);
    expect(found.beats.map(({ beat, figure }) => [beat, figure])).toEqual([
      [0, 'triplets'],
      [1, 'triplets'],
      [3, 'beat'],
    ]);
  });

  it('never gives two onsets one place, however many there are', () => {
    for (const count of [9, 12, 13, 40, 500]) {
      const found = findGrid(
        at(500, ...Array.from({ length: count }, (_, index) => 0.4 + (index * 0.5) / count)),
      );
      for (let i = 1; i < count; i += 1) {
        expect(found.places[i]).toBeGreaterThan(found.places[i - 1] ?? 0);
      }
    }
    // both within 10 ms of the beat
    expect(new Set(findGrid(at(500, 0.98, 1.02)).places).size).toBe(2);
  });

  it('keeps an onset between two triplets a triplet, and one between sixteenths a sixteenth', () => {
    // 0.29 is 20 ms from a quarter of the beat and 21.7 ms from a third
    const triplet = findGrid(at(500, 0, 0.33, 0.67, 1, 1.29, 1.66, 2, 2.33, 2.67));
    expect(triplet.places[4]).toBeCloseTo(1 + 1 / 3, 12);
    const sixteenth = findGrid(at(500, 0, 0.25, 0.5, 0.75, 1, 1.29, 1.51, 1.74, 2, 2.25));
    expect(sixteenth.places[5]).toBeCloseTo(1.25, 12);
  });

  it('is given by the neighbouring beats where the beat itself leaves it open', () => {
    const open = 0.2915; // 20.8 ms from a quarter, 20.9 ms from a third
    const amongTriplets = findGrid(at(500, 0, 0.33, 0.67, 1, 1 + open, 2, 2.33, 2.67));
    const amongSixteenths = findGrid(at(500, 0, 0.25, 0.5, 0.75, 1, 1 + open, 2, 2.25, 2.5, 2.75));
    expect(amongTriplets.places[4]).toBeCloseTo(1 + 1 / 3, 12);
    expect(amongSixteenths.places[5]).toBeCloseTo(1.25, 12);
  });

  it('finds nothing in nothing', () => {
    expect(findGrid(at(500))).toEqual({ places: new Float64Array(0), beats: [] });
  });
});

describe('findGrid on held-back performances', () => {
  const seeds = some(heldBackSeeds);
  const required: readonly Kind[] = ['straight', 'triplet', 'dotted', 'mixed'];

  it('has at least 98 % of the beats right, for every kind and tempo, at ±15 ms', () => {
    for (const cell of gridTable(seeds, uniform15)) {
      expect(cell.beats).toBeGreaterThan(50 * seeds.length);
      expect(cell.right / cell.beats, `${cell.kind} at ${cell.bpm}`).toBeGreaterThanOrEqual(0.98);
    }
  });

  it('has them right with normally distributed jitter of 8 ms', () => {
    for (const cell of gridTable(seeds, gaussian8)) {
      expect(cell.right / cell.beats, `${cell.kind} at ${cell.bpm}`).toBeGreaterThanOrEqual(0.98);
    }
  });

  it('covers the kinds and tempi that it speaks of, on seeds apart from those of tuning', () => {
    const cells = gridTable(heldBackSeeds.slice(0, 1), uniform15, 8);
    for (const kind of required) {
      expect(cells.filter((cell) => cell.kind === kind).map((cell) => cell.bpm)).toEqual([...tempi]);
    }
    expect(tempi[0]).toBe(60);
    expect(tempi.at(-1)).toBe(180);
    expect(heldBackSeeds.filter((seed) => tuningSeeds.includes(seed))).toEqual([]);
  });

  it('never pulls a triplet to sixteenths in a performance of triplets', () => {
    let onsets = 0;
    for (const bpm of tempi) {
      for (const seed of seeds) {
        for (const place of findGrid(perform('triplet', bpm, uniform15, 64, seed).onsets).places) {
          onsets += 1;
          expect(Math.abs(place * 3 - Math.round(place * 3))).toBeLessThan(1e-9);
        }
      }
    }
    expect(onsets).toBeGreaterThan(500 * seeds.length);
  });

  it('could be told from a finder that always takes the nearest sixteenth', () => {
    const sixteenths: typeof findGrid = (onsets) => ({
      places: onsets.beats.map((beat) => Math.round(beat * 4) / 4),
      beats: findGrid(onsets).beats,
    });
    const played = perform('triplet', 120, uniform15, 64, 5);
    expect(beatsRight(played, findGrid(played.onsets))).toBe(played.beats.length);
    expect(beatsRight(played, sixteenths(played.onsets))).toBeLessThan(played.beats.length / 2);
  });
});

it('keeps every kind in the table', () => {
  expect(new Set(gridTable([1], uniform15, 4).map((cell) => cell.kind))).toEqual(new Set(kinds));
});
