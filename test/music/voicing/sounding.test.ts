import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pitchesOfKey, sweep } from '../../../src/music/voicing/sounding.js';
import { draws } from '../../support/draws.js';
import { note } from './support.js';

describe('sweep', () => {
  it('goes from change to change, and stops at cuts', () => {
    const steps: unknown[] = [];
    const notes = [note(60, 0, 100, 1), note(64, 50, 100, 2), note(60, 50, 80, 0), note(72, 90, 90, 0)];
    sweep(notes, [20, 70, 500], (tick, endTick, sounding) => {
      steps.push([
        tick,
        endTick,
        pitchesOfKey(sounding.key()),
        [...sounding.partsAt(60).keys()],
        sounding.parts().size,
      ]);
    });
    expect(steps).toEqual([
      [0, 20, [60], [1], 1],
      [20, 50, [60], [1], 1],
      [50, 70, [60, 64], [1, 0], 3],
      [70, 80, [60, 64], [1, 0], 3],
      [80, 100, [60, 64], [1], 2],
    ]);
  });

  it('tells what a plain count of the notes would, at every step', () => {
    const notes = fc.array(
      fc
        .tuple(
          fc.integer({ min: 0, max: 127 }),
          fc.integer({ min: 0, max: 40 }),
          fc.integer({ min: 0, max: 20 }),
          fc.integer({ min: 0, max: 2 }),
        )
        .map(([pitch, tick, length, part]) => note(pitch, tick, tick + length, part)),
      { maxLength: 30 },
    );
    fc.assert(
      fc.property(notes, (all) => {
        const keys = new Map<string, string>();
        let covered = 0;
        sweep(all, [], (tick, endTick, sounding) => {
          const here = all.filter(
            (one) => one.tick <= tick && one.endTick >= endTick && one.endTick > one.tick,
          );
          const pitches = [...new Set(here.map(({ pitch }) => pitch))].sort((a, b) => a - b);
          expect(pitchesOfKey(sounding.key())).toEqual(pitches);
          expect(sounding.lowest()).toBe(pitches[0]);
          expect(sounding.highestUpTo(127)).toBe(pitches.at(-1));
          expect(sounding.parts().size).toBe(new Set(here.map(({ part }) => part)).size);
          expect(keys.get(sounding.key()) ?? pitches.join()).toBe(pitches.join());
          keys.set(sounding.key(), pitches.join());
          covered += endTick - tick;
        });
        expect(new Set(keys.values()).size).toBe(keys.size);
        const sounded = Array.from({ length: 61 }, (_, at) =>
          all.some(({ tick, endTick }) => tick <= at && endTick > at),
        );
        expect(covered).toBe(sounded.filter(Boolean).length);
      }),
      { seed: 6, numRuns: draws(200) },
    );
  });
});
