// How chords are laid out.
import type { Clock } from '../../midi/index.js';
import type { SoundingNote } from '../harmony/index.js';
import { crossingsOf, defaultPitches } from './crossing.js';
import { doubledOf } from './doubled.js';
import { mudOf } from './mud.js';
import { sonorities } from './sonority.js';
import { bareOf, builtOf, gapsOf, neighboursOf, positionOf } from './spacing.js';
import type { VoicedSpan, Voicing } from './types.js';

export { lowIntervalLimits } from './mud.js';
export { type Sounding, sweep } from './sounding.js';
export type {
  Crossing,
  Doubled,
  LowInterval,
  Neighbours,
  VoicedPitch,
  VoicedSpan,
  Voicing,
} from './types.js';

/**
 * How the chord of each stretch is laid out: what sounds longest in it, if that is three different pitches or more, or
 * two that are octaves, fifths or fourths apart. Stretches without such have none. Sorts the notes, and is linear in
 * them and in the stretches beyond that.
 *
 * @param stretches rising, none over another; harmonies serve as they are, and say what tone of the chord is doubled
 */
export function voicingOf(
  notes: readonly SoundingNote[],
  stretches: readonly VoicedSpan[],
  clock: Clock,
): readonly Voicing[] {
  const usual = defaultPitches(notes);
  return sonorities(notes, stretches, clock).flatMap((pitches, index): Voicing[] => {
    const stretch = stretches[index];
    if (!stretch || !pitches) return [];
    const { tick, endTick, bar, beat, key, chord = null } = stretch;
    const heights = pitches.map(({ pitch }) => pitch);
    const neighbours = neighboursOf(heights);
    const spacing = neighbours.map(({ semitones }) => semitones);
    return [
      {
        tick,
        endTick,
        bar,
        beat,
        ...(key ? { at: { chord, key } } : {}),
        pitches,
        spacing,
        kind: positionOf(heights),
        built: builtOf(spacing),
        bare: bareOf(heights),
        doubled: doubledOf(pitches, stretch),
        crossings: crossingsOf(pitches, usual),
        gaps: gapsOf(neighbours),
        mud: mudOf(neighbours),
      },
    ];
  });
}
