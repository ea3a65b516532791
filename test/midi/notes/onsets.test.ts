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

  it('does not chain: a fast run is no chord', () => {
    expect(sizes([0, 70, 140, 210, 280])).toEqual([2, 2, 1]);
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
