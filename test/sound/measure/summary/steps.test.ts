import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type OnsetAt, stepsOf } from '../../../../src/sound/measure/summary/steps.js';
import { draws } from '../../../support/draws.js';

const grid = (ms: (pitch: number, velocity: number) => number): readonly OnsetAt[] =>
  [50, 60, 70, 80].flatMap((pitch) =>
    [20, 55, 90, 127].map((velocity) => ({ pitch, velocity, ms: ms(pitch, velocity) })),
  );

describe('steps', () => {
  it('are none where the onsets are alike, or scatter by more than they differ', () => {
    expect(
      stepsOf(
        grid(() => 40),
        ['velocity', 'pitch'],
      ),
    ).toBeUndefined();
    expect(
      stepsOf(
        grid((_, velocity) => (velocity > 60 ? 49 : 40)),
        ['velocity', 'pitch'],
      ),
    ).toBeUndefined();
    expect(
      stepsOf(
        grid((pitch, velocity) => (velocity > 60 ? 55 : 40) + pitch),
        ['velocity'],
      ),
    ).toBeUndefined();
  });

  it('by velocity lie half way between the velocities that differ', () => {
    expect(
      stepsOf(
        grid((_, velocity) => (velocity > 60 ? 30 : 80)),
        ['velocity', 'pitch'],
      ),
    ).toEqual([
      { when: { velocity: { to: 72 } }, isMs: 80, spreadMs: 0, used: 8 },
      { when: null, isMs: 30, spreadMs: 0, used: 8 },
    ]);
  });

  it('by pitch are found beside velocities that make little difference', () => {
    const found = stepsOf(
      grid((pitch, velocity) => pitch + velocity / 100),
      ['velocity', 'pitch'],
    );
    // Ten semitones are 10 ms and no more: told apart are only those that lie farther from each other.
    expect(found?.every(({ when }) => when === null || 'pitch' in when)).toBe(true);
  });

  it('are of one kind, the one that explains more', () => {
    const both = grid((pitch, velocity) => (velocity > 60 ? 0 : 100) + (pitch > 65 ? 0 : 15));
    expect(stepsOf(both, ['velocity', 'pitch'])?.map(({ when }) => when)).toEqual([
      { velocity: { to: 72 } },
      null,
    ]);
  });

  it('cover every note once, and rise', () => {
    const any = fc.array(fc.integer({ min: 0, max: 200 }), { minLength: 16, maxLength: 16 });
    fc.assert(
      fc.property(any, (times) => {
        let index = 0;
        const onsets = grid(() => times[index++] ?? 0);
        const steps = stepsOf(onsets, ['pitch']) ?? [];
        if (steps.length === 0) return;
        expect(steps.reduce((sum, { used }) => sum + used, 0)).toBe(16);
        expect(steps.at(-1)?.when).toBeNull();
        const bounds = steps.flatMap(({ when }) => (when && 'pitch' in when ? [when.pitch.to ?? 0] : []));
        expect(bounds).toEqual(bounds.toSorted((a, b) => a - b));
      }),
      { seed: 6, numRuns: draws(200) },
    );
  });
});
