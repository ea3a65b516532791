import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nearestGivenPlaces } from '../../src/timing/grid/given.js';
import { findGrid } from '../../src/timing/grid/index.js';
import { pull as pullColumns } from '../../src/timing/pull.js';
import { draws } from '../support/draws.js';
import { evenly, heldBackSeeds, perform, uniform15 } from './performances.js';

const PPQ = 480;

interface PulledOnset {
  /** The tick that stands for the chord: its earliest note. */
  readonly tick: number;
  readonly place: number | null;
  readonly notes: readonly number[];
}

/** The new ticks of each onset's notes. */
function pull(onsets: readonly PulledOnset[], share: number): readonly (readonly number[])[] {
  const first = Float64Array.from(onsets, ({ tick }) => tick);
  const last = Float64Array.from(onsets, ({ notes }) => Math.max(...notes));
  const place = Float64Array.from(onsets, (onset) => onset.place ?? Number.NaN);
  const moved = pullColumns({ first, last, place }, share);
  return onsets.map(({ tick, notes }, index) => notes.map((note) => note + (moved[index] ?? tick) - tick));
}

const single = (tick: number, place: number | null): PulledOnset => ({ tick, place, notes: [tick] });

/** Random chords on places of their own, at most 40 ticks wide and at least 41 apart. */
const chords = fc
  .array(
    fc.record({
      gap: fc.integer({ min: 41, max: 300 }),
      off: fc.integer({ min: -20, max: 20 }),
      spread: fc.array(fc.integer({ min: 0, max: 40 }), { maxLength: 3 }),
    }),
    { maxLength: 30 },
  )
  .map((list) => {
    let tick = 0;
    return list.map(({ gap, off, spread }) => {
      tick += gap;
      return { tick, place: tick + off, notes: [tick, ...spread.map((by) => tick + by)] };
    });
  });

describe('pull', () => {
  it('moves part of the way', () => {
    expect(pull([single(100, 110), single(500, 480), single(900, null)], 0.6)).toEqual([[106], [488], [900]]);
  });

  it('keeps the spread of a chord', () => {
    expect(pull([{ tick: 492, place: 480, notes: [500, 492, 497] }], 1)).toEqual([[488, 480, 485]]);
  });

  it('is the identity at 0', () => {
    fc.assert(
      fc.property(chords, (onsets) => {
        expect(pull(onsets, 0)).toEqual(onsets.map((onset) => onset.notes));
      }),
      { seed: 21 },
    );
  });

  it('leaves one less the share of each distance, within a tick, and the order as it was', () => {
    fc.assert(
      fc.property(chords, fc.double({ min: 0, max: 1, noNaN: true }), (onsets, share) => {
        const pulled = pull(onsets, share);
        let latest = 0;
        pulled.forEach((notes, index) => {
          const onset = onsets[index];
          if (!onset) return;
          expect(
            Math.abs((notes[0] ?? 0) - onset.place - (1 - share) * (onset.tick - onset.place)),
          ).toBeLessThan(1);
          for (const note of notes) expect(note).toBeGreaterThanOrEqual(latest);
          latest = Math.max(...notes);
        });
      }),
      { seed: 22 },
    );
  });

  it('puts every onset on its place of the found grid at 100 %, in every performance', () => {
    for (const seed of heldBackSeeds.slice(0, 5)) {
      const played = perform('mixed', 150, uniform15, 64, seed);
      const ticks = Array.from(played.onsets.beats, (beat) => Math.round(beat * PPQ));
      const grid = findGrid(
        evenly(
          400,
          ticks.map((tick) => tick / PPQ),
        ),
      );
      const onsets = ticks.map((tick, index) => single(tick, (grid.places[index] ?? 0) * PPQ));
      const full = pull(onsets, 1).flat();
      const places = new Set(Array.from(grid.places, (place) => Math.round(place * PPQ)));
      expect(full.every((tick) => places.has(tick))).toBe(true);
      expect(new Set(full).size).toBe(full.length);
      const part = pull(onsets, 0.6).flat();
      part.forEach((tick, index) => {
        const place = (grid.places[index] ?? 0) * PPQ;
        expect(Math.abs(tick - place - 0.4 * ((ticks[index] ?? 0) - place))).toBeLessThan(1);
      });
    }
  });

  it('keeps the order on given grids, where some onsets have no place', () => {
    const ticks = fc
      .uniqueArray(fc.integer({ min: 0, max: 4 * PPQ }), { maxLength: 60 })
      .map((list) => list.sort((a, b) => a - b));
    fc.assert(
      fc.property(ticks, fc.double({ min: 0, max: 1, noNaN: true }), (list, share) => {
        const places = nearestGivenPlaces(
          Float64Array.from(list, (tick) => tick / PPQ),
          [
            { numerator: 1, denominator: 16 },
            { numerator: 1, denominator: 12 },
          ],
        );
        const pulled = pull(
          list.map((tick, index) => {
            const place = places[index] ?? Number.NaN;
            return single(tick, Number.isNaN(place) ? null : place * PPQ);
          }),
          share,
        ).flat();
        for (let i = 1; i < pulled.length; i += 1)
          expect(pulled[i]).toBeGreaterThanOrEqual(pulled[i - 1] ?? 0);
      }),
      { seed: 23, numRuns: draws(500) },
    );
  });
});
