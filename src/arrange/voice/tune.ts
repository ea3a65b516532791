import type { ChordToVoice } from './chords.js';
import type { PitchSpan } from './types.js';

/** A tune, moved by octaves to where its part can play it. */
export interface MovedTune {
  readonly chords: readonly ChordToVoice[];
  /** By how many octaves all of it was moved. */
  readonly octaves: number;
  /** Indices of chords whose note was moved further, since the part does not have it. */
  readonly single: readonly number[];
}

/**
 * Moves the tune as a whole by as few octaves as put most of it into its part's range; of two ways as good the smaller
 * move, then the lower. Notes that still lie outside are moved one by one.
 */
export function tuneInRange(chords: readonly ChordToVoice[], { low, high }: PitchSpan): MovedTune {
  const pitches = chords.flatMap(({ tune }) => tune ?? []);
  const within = (pitch: number) => pitch >= low && pitch <= high;
  const fits = (octaves: number) => pitches.filter((pitch) => within(pitch + 12 * octaves)).length;
  let octaves = 0;
  for (const other of [-1, 1, -2, 2, -3, 3, -4, 4, -5, 5]) if (fits(other) > fits(octaves)) octaves = other;
  const single: number[] = [];
  const moved = chords.map((chord, index): ChordToVoice => {
    if (chord.tune === null) return chord;
    let pitch = chord.tune + 12 * octaves;
    if (!within(pitch)) single.push(index);
    while (pitch < low) pitch += 12;
    while (pitch > high) pitch -= 12;
    return { ...chord, tune: within(pitch) ? pitch : null };
  });
  return { chords: moved, octaves, single };
}
