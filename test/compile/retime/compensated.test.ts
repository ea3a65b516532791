import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clockOf } from '../../../src/midi/clock/index.js';
import { nowIn } from '../../support/decided.js';
import { draws } from '../../support/draws.js';
import { retimed, speaking, times } from '../../support/retimed.js';
import { songOf, tempoAt, trackOf } from '../../support/song.js';

describe('compensate', () => {
  it('starts notes earlier by what their articulation needs to speak, and leaves their release', () => {
    const notes = [
      { tick: 1000, end: 1100, pitch: 60 },
      { tick: 2000, end: 2900, pitch: 62 },
    ];
    const { part, codes } = retimed(speaking('40ms', '140ms'), notes, { compensate: true });
    expect(times(part)).toEqual([
      [960, 1100],
      [1860, 2900],
    ]);
    expect(part.retimed.moves).toEqual([
      { compensate: -40, release: 40 },
      { compensate: -140, release: 140 },
    ]);
    expect(codes).toEqual([]);
  });

  it('takes the first step of a table that fits the note as it was played', () => {
    const map = speaking(
      '0ms',
      '[{when: {velocity: {from: 100}}, is: 50ms}, {when: {pace: {below: 600ms}}, is: 80ms}, {is: 120ms}]',
    );
    const notes = [
      { tick: 1000, end: 1400, pitch: 60, velocity: 110 },
      { tick: 1500, end: 1900, pitch: 62, velocity: 60 },
      { tick: 2000, end: 2900, pitch: 64, velocity: 60 },
    ];
    expect(times(retimed(map, notes, { compensate: true }).part).map(([start]) => start)).toEqual([
      950, 1420, 1880,
    ]);
  });

  it('across tempo changes: onset + speaks-after is the played onset, within a tick (random tempo maps)', () => {
    const tempos = fc.array(fc.tuple(fc.nat(20_000), fc.integer({ min: 30, max: 260 })), { maxLength: 8 });
    const steps = fc.array(fc.integer({ min: 300, max: 1500 }), { minLength: 1, maxLength: 20 });
    fc.assert(
      fc.property(tempos, steps, fc.integer({ min: 1, max: 60 }), (changes, gaps, speaks) => {
        let tick = 2000;
        const notes = gaps.map((gap) => {
          tick += gap;
          return { tick, end: tick + 100, pitch: 60 };
        });
        const others = changes.map(([at, bpm]) => tempoAt(at, bpm));
        const song = songOf([trackOf(notes, others)]);
        const clock = clockOf(song, 1);
        const { part } = retimed(
          speaking(`${speaks}ms`, `${speaks}ms`),
          notes,
          { compensate: true },
          others,
          {},
        );
        nowIn(part).forEach(({ note }, index) => {
          const played = notes[index]?.tick ?? 0;
          expect(Math.abs(clock.tickAt(clock.ms(note.tick) + speaks) - played)).toBeLessThanOrEqual(1);
        });
      }),
      { seed: 71, numRuns: draws(80) },
    );
  });

  it('clamps what would start before the file, says so (starts-late), and --preroll cures it', () => {
    const { part, codes } = retimed(speaking('40ms', '140ms'), [{ tick: 10, end: 100, pitch: 60 }], {
      compensate: true,
    });
    expect(times(part)[0]?.[0]).toBe(0);
    expect(codes).toEqual(['starts-late']);
  });

  it('never passes the note before it, nor the same key', () => {
    const close = [
      { tick: 1000, end: 1100, pitch: 60 },
      { tick: 1100, end: 1900, pitch: 60 },
    ];
    const { part, codes } = retimed(speaking('0ms', '140ms'), close, { compensate: true });
    expect(times(part)).toEqual([
      [1000, 1001],
      [1001, 1941],
    ]);
    expect(codes).toEqual(['starts-late']);
  });
});
