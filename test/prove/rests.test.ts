import { describe, expect, it } from 'vitest';
import { clockOf } from '../../src/midi/clock/index.js';
import { isRestDue, restsBefore } from '../../src/prove/rests.js';
import { fileOf, note } from './events.js';

/** A tick is a millisecond. */
const clock = clockOf(fileOf(note(0, 1, 60)), 1);
const played = (tick: number, endTick: number, onset: number) => ({
  index: 0,
  tick,
  endTick,
  onset,
  channel: 0,
  pitch: 60,
  meant: undefined,
  isSelected: false,
  hiddenBy: undefined,
  sounds: [],
  keys: [],
});

describe('restsBefore', () => {
  it('is endless before the first onset, and runs from the latest release before each', () => {
    const notes = [played(100, 900, 0), played(100, 300, 0), played(800, 850, 1), played(1000, 1100, 2)];
    expect(restsBefore(notes, clock).map(({ ms }) => ms)).toEqual([Number.POSITIVE_INFINITY, 0, 100]);
  });
});

describe('isRestDue', () => {
  it('is from the rest on that the map names, and never without one', () => {
    const rest = { ms: 500, ticks: 500 };
    expect(isRestDue(rest, { unit: 'ms', ms: 500 }, clock)).toBe(true);
    expect(isRestDue(rest, { unit: 'ms', ms: 501 }, clock)).toBe(false);
    expect(isRestDue(rest, { unit: 'whole', numerator: 1, denominator: 4 }, clock)).toBe(true);
    expect(isRestDue(rest, undefined, clock)).toBe(false);
    expect(isRestDue(undefined, { unit: 'ms', ms: 0 }, clock)).toBe(false);
  });
});
