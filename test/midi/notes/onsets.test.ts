import { describe, expect, it } from 'vitest';
import { lineOfNotes, msTicks, plainMap } from '../../support/line.js';
import { mapOf } from '../../support/map.js';

const at = (...ticks: number[]) => ticks.map((tick, index) => ({ tick, end: tick + 200, pitch: 60 + index }));
const sizes = (ticks: readonly number[], map = plainMap()) =>
  lineOfNotes(at(...ticks), [], msTicks, map).onsets.map(({ notes }) => notes.length);

describe('what is struck together', () => {
  it('is what lies within 80 ms of the first note, inclusive', () => {
    expect(sizes([0, 80, 81])).toEqual([2, 1]);
  });

  it('does not chain: however near each note is to the one before, the first decides', () => {
    expect(sizes([0, 40, 80, 120, 160])).toEqual([3, 2]);
  });

  it('sounds on together for at least 0.7 of the time over which it was struck', () => {
    const heldUntil = (end: number) =>
      lineOfNotes(
        [
          { tick: 0, end, pitch: 60 },
          { tick: 50, end: 400, pitch: 64 },
        ],
        [],
        msTicks,
      ).onsets.length;
    // 50 ms apart: 35 ms together are enough.
    expect([heldUntil(85), heldUntil(84)]).toEqual([1, 2]);
  });

  it('leaves out a grace note that has been released, and a fast run', () => {
    const run = [0, 60, 120, 180].map((tick) => ({ tick, end: tick + 62, pitch: 60 + tick / 60 }));
    expect(lineOfNotes(run, [], msTicks).onsets).toHaveLength(4);
    const grace = [
      { tick: 0, end: 45, pitch: 67 },
      { tick: 50, end: 500, pitch: 65 },
      { tick: 52, end: 500, pitch: 69 },
    ];
    expect(lineOfNotes(grace, [], msTicks).onsets.map(({ notes }) => notes.length)).toEqual([1, 2]);
  });

  it('follows the chord-window of the map, in time or in fractions', () => {
    const rest = 'articulations:\n  only: {switch: {note: C0}}\nrules:\n  - use: only\n';
    expect(sizes([0, 20, 100], mapOf(`chord-window: 10ms\n${rest}`))).toEqual([1, 1, 1]);
    // ppq 500: a 1/64 of a whole note is 31.25 ticks.
    expect(sizes([0, 31, 32], mapOf(`chord-window: 1/64\n${rest}`))).toEqual([2, 1]);
  });

  it('finds the top note', () => {
    const line = lineOfNotes(
      [
        { tick: 0, end: 90, pitch: 64 },
        { tick: 5, end: 90, pitch: 67 },
        { tick: 9, end: 90, pitch: 60 },
      ],
      [],
      msTicks,
    );
    expect(line.onsets[0]?.top.pitch).toBe(67);
    expect(line.onsets[0]).toMatchObject({ tick: 0, lastTick: 9 });
  });
});
