import { describe, expect, it } from 'vitest';
import { harmonyOf } from '../../../src/music/harmony/index.js';
import { chordsOf, clockFor } from './support.js';

/** Block chords of so many beats each, and the names that are found. */
function named(chords: readonly (readonly number[])[], beats: number): readonly (string | null)[] {
  return harmonyOf(chordsOf(chords, beats), clockFor(), { per: 'found' }).map(
    ({ chord }) => chord?.name ?? null,
  );
}

describe('block chords that stand', () => {
  // All of it is within G7sus4; read by hand, as a harmony textbook names each.
  const suspended = [
    [48, 55, 60],
    [50, 55, 60],
    [48, 53, 55, 60],
  ];

  it('are chords of their own, though one could explain them all', () => {
    expect(named(suspended, 4)).toEqual(['C5', 'D quartal', 'Csus4']);
    expect(named(suspended, 2)).toEqual(['C5', 'D quartal', 'Csus4']);
  });

  it('keep their inversions apart', () => {
    const inversions = [
      [52, 55, 60, 72],
      [55, 60, 64, 72],
      [48, 55, 60, 64],
    ];
    expect(named(inversions, 4)).toEqual(['C/E', 'C/G', 'C']);
  });

  it('are one where the same chord is struck again', () => {
    expect(named([suspended[0] ?? [], suspended[0] ?? []], 4)).toEqual(['C5']);
  });

  it('do not part a broken chord, whose voices move', () => {
    // C E G E in quarters, over two bars.
    const broken = [48, 52, 55, 52, 48, 52, 55, 52].map((pitch) => [pitch]);
    expect(named(broken, 1)).toEqual(['C']);
  });
});
