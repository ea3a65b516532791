import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { releasesBeforeRepeats as releasesOf } from '../../src/timing/repeats.js';
import { draws } from '../support/draws.js';

interface MovedNote {
  readonly pitch: number;
  readonly channel: number;
  readonly played: { readonly onset: number; readonly release: number };
  readonly onset: number;
  readonly release: number;
}

const releasesBeforeRepeats = (notes: readonly MovedNote[]) => [
  ...releasesOf({
    pitch: Uint8Array.from(notes, ({ pitch }) => pitch),
    channel: Uint8Array.from(notes, ({ channel }) => channel),
    playedOnset: Float64Array.from(notes, ({ played }) => played.onset),
    playedRelease: Float64Array.from(notes, ({ played }) => played.release),
    onset: Float64Array.from(notes, ({ onset }) => onset),
    release: Float64Array.from(notes, ({ release }) => release),
  }),
];

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

  it('is, note by note, the earliest onset at the next tick at which its pitch was played', () => {
    const hasMoved = (one: MovedNote) => one.onset !== one.played.onset;
    const small = fc.integer({ min: -3, max: 3 });
    const lines = fc
      .array(fc.tuple(fc.nat(12), fc.integer({ min: 1, max: 9 }), small, small, fc.nat(1), fc.nat(1)), {
        maxLength: 20,
      })
      .map((list) =>
        list
          .map(([at, length, by, more, pitch, channel]) =>
            note([at, at + length], [at + by, at + length + more], 60 + pitch, channel),
          )
          .sort((a, b) => a.played.onset - b.played.onset),
      );
    fc.assert(
      fc.property(lines, (notes) => {
        const expected = notes.map((own) => {
          const behind = notes.filter(
            ({ pitch, channel, played }) =>
              pitch === own.pitch && channel === own.channel && played.onset > own.played.onset,
          );
          const next = behind.filter(({ played }) => played.onset === behind[0]?.played.onset);
          const touched = next.some(hasMoved) || hasMoved(own) || own.release !== own.played.release;
          const [first] = next;
          if (!first || !touched || own.played.release > first.played.onset) return own.release;
          return Math.min(own.release, ...next.map(({ onset }) => onset));
        });
        expect(releasesBeforeRepeats(notes)).toEqual(expected);
      }),
      { seed: 42, numRuns: draws(400) },
    );
  });
});
