import { clockOf } from '../../../src/midi/clock/index.js';
import type { SoundingNote } from '../../../src/music/harmony/types.js';
import { songOf, trackOf } from '../../support/song.js';

/** A clock at ppq 500 and 120 bpm, where a tick is a millisecond and a bar of 4/4 is 2,000 of them. */
export const clock = clockOf(songOf([trackOf([])], { ppq: 500 }), 1);

/** A note; by default a bar long, at velocity 80, in part 0. */
export function note(pitch: number, tick = 0, endTick = tick + 2000, part = 0, velocity = 80): SoundingNote {
  return { pitch, tick, endTick, part, velocity };
}

/** Notes of a chord, each in a part of its own, the lowest in part 0. */
export function chord(pitches: readonly number[], tick = 0, endTick = tick + 2000): readonly SoundingNote[] {
  return pitches.map((pitch, part) => note(pitch, tick, endTick, part));
}

/** Stretches of one bar each. */
export function bars(count: number) {
  return Array.from({ length: count }, (_, bar) => {
    return { tick: bar * 2000, endTick: (bar + 1) * 2000, bar: bar + 1, beat: 1 };
  });
}
