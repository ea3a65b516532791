import { describe, expect, it } from 'vitest';
import { clockOf } from '../../src/midi/clock/index.js';
import { Rests } from '../../src/prove/rests.js';
import { fileOf, note } from './events.js';

/** A tick is a millisecond. */
const clock = clockOf(fileOf(note(0, 1, 60)), 1);
const rests = (...played: readonly (readonly [tick: number, endTick: number, onset: number])[]) =>
  new Rests(
    {
      length: played.length,
      tick: (index) => played[index]?.[0] ?? 0,
      endTick: (index) => played[index]?.[1] ?? 0,
      onset: (index) => played[index]?.[2] ?? 0,
    },
    clock,
  );

describe('the rest before an onset', () => {
  it('is endless before the first, and runs from the latest release before each', () => {
    const found = rests([100, 900, 0], [100, 300, 0], [800, 850, 1], [1000, 1100, 2]);
    expect([0, 1, 2].map((onset) => found.ms(onset))).toEqual([Number.POSITIVE_INFINITY, 0, 100]);
    expect([0, 1, 2].map((onset) => found.ticks(onset))).toEqual([Number.POSITIVE_INFINITY, 0, 100]);
  });

  it('is that of its own onset where another has been lost altogether', () => {
    const found = rests([0, 500, 0], [1000, 1200, 2], [1000, 1100, 2], [1600, 1700, 3]);
    expect([2, 3].map((onset) => found.ms(onset))).toEqual([500, 400]);
    expect([...found.due({ unit: 'ms', ms: 450 })]).toEqual([1, 0, 1, 0]);
  });

  it('asks for switches from the rest on that the map names, and never without one', () => {
    const found = rests([0, 500, 0], [1000, 1200, 1]);
    expect([...found.due({ unit: 'ms', ms: 500 })]).toEqual([1, 1]);
    expect([...found.due({ unit: 'ms', ms: 501 })]).toEqual([1, 0]);
    expect([...found.due({ unit: 'whole', numerator: 1, denominator: 4 })]).toEqual([1, 1]);
    expect([...found.due(undefined)]).toEqual([0, 0]);
  });
});
