import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { align } from '../../../src/prove/against/align.js';
import { draws } from '../../support/draws.js';
import type { Timed } from '../../support/song.js';
import { cc, note, off, on, columnsOf as track } from '../events.js';

const same = (channel: number) => channel;

describe('align', () => {
  it('finds the input’s events among inserted ones', () => {
    const input = [...note(500, 900, 60), ...note(1000, 1400, 62)];
    const output = [
      on(480, 0),
      on(500, 60),
      off(510, 0),
      off(900, 60),
      on(980, 1),
      on(1000, 62),
      off(1010, 1),
      off(1400, 62),
    ];
    const { inputOf, missing } = align(track(input), track(output), same);
    expect([...inputOf]).toEqual([-1, 0, -1, 1, -1, 2, -1, 3, 4]);
    expect(missing).toEqual([]);
  });

  it('tells what is lost on one tick without spoiling the next', () => {
    const input = [on(500, 60), on(500, 61), on(500, 62), off(600, 60)];
    const { inputOf, missing } = align(track(input), track([on(500, 60), on(500, 62), off(600, 60)]), same);
    expect([...inputOf]).toEqual([0, 2, 3, 4]);
    expect(missing).toEqual([1]);
  });

  it('takes another order on a tick for a loss', () => {
    const input = [cc(500, 1, 5), cc(500, 2, 6)];
    expect(align(track(input), track([cc(500, 2, 6), cc(500, 1, 5)]), same).missing).toEqual([1]);
  });

  it('finds all of any input in any output that has it, and what was put in is the rest', () => {
    const event = fc.tuple(fc.nat(6), fc.constantFrom(1, 2), fc.nat(1));
    fc.assert(
      fc.property(fc.array(fc.tuple(event, fc.boolean()), { maxLength: 40 }), (marked) => {
        const sorted = [...marked].sort(([[a]], [[b]]) => a - b);
        const timed = sorted.map(([[tick, number, value]]) => cc(tick, number, value));
        const kept = timed.filter((_, index) => sorted[index]?.[1]);
        const { inputOf, missing } = align(track(kept), track(timed), same);
        // The closing end-of-track may lie on another tick; all else must be found.
        expect(missing.filter((index) => index < kept.length)).toEqual([]);
        expect([...inputOf].filter((index) => index >= 0 && index < kept.length)).toEqual(
          kept.map((_, index) => index),
        );
      }),
      { seed: 5, numRuns: draws(300) },
    );
  });

  it('finds every event missing where a whole tick is damaged', () => {
    const many = Array.from({ length: 20_000 }, (_, index) => cc(0, index % 100, Math.floor(index / 200)));
    const before = track(
      many.map(({ event }) => ({ tick: 0, event: { ...event, value: 127 } as Timed['event'] })),
    );
    const { missing } = align(before, track(many), same);
    expect(missing.length).toBe(20_000);
  });
});
