import { describe, expect, it } from 'vitest';
import { type MovedNote, releasesBeforeRepeats } from '../../src/timing/repeats.js';

const note = (
  played: readonly [number, number],
  moved: readonly [number, number] = played,
  pitch = 60,
  channel = 0,
): MovedNote => ({
  pitch,
  channel,
  played: { onset: played[0], release: played[1] },
  onset: moved[0],
  release: moved[1],
});

describe('releasesBeforeRepeats', () => {
  it('ends a note where its pitch now begins', () => {
    expect(releasesBeforeRepeats([note([0, 90]), note([100, 190], [60, 190])])).toEqual([60, 190]);
    expect(releasesBeforeRepeats([note([0, 90], [0, 130]), note([100, 190])])).toEqual([100, 190]);
  });

  it('leaves other pitches, other channels and what ends before', () => {
    expect(
      releasesBeforeRepeats([
        note([0, 90]),
        note([0, 90], [0, 90], 64),
        note([0, 40], [0, 40], 62),
        note([100, 190], [60, 190], 60, 1),
        note([100, 190], [60, 190], 62),
      ]),
    ).toEqual([90, 90, 40, 190, 190]);
  });

  it('leaves an overlap that was played', () => {
    expect(releasesBeforeRepeats([note([0, 150]), note([100, 190])])).toEqual([150, 190]);
    expect(releasesBeforeRepeats([note([20, 150], [0, 150]), note([100, 190])])).toEqual([150, 190]);
  });

  it('looks past the notes of one pitch struck together, to the earliest of the next', () => {
    expect(
      releasesBeforeRepeats([
        note([0, 90]),
        note([0, 95]),
        note([100, 190], [80, 190]),
        note([100, 190], [70, 190]),
      ]),
    ).toEqual([70, 70, 190, 190]);
  });
});
