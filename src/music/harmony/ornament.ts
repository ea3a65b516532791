import { lastAtMost } from '../../midi/index.js';
import { risingSet } from './rising-set.js';

/** A note between two ticks. */
interface Note {
  readonly tick: number;
  readonly endTick: number;
  readonly pitch: number;
}

/** A second: what ornaments are reached and left by, in semitones. */
const step = 2;

/**
 * Which notes pass or turn: those between beats, no longer than half a quarter note (`unit` ticks), that are reached by
 * step and left by step, in whatever part (passing and neighbouring tones, common practice).
 */
export function ornaments(
  notes: readonly Note[],
  unit: number,
  isBeat: (tick: number) => boolean,
): readonly boolean[] {
  const ending = soundsAt(notes, ({ endTick }) => endTick);
  const beginning = soundsAt(notes, ({ tick }) => tick);
  return notes.map(({ tick, endTick, pitch }) => {
    if (endTick - tick > unit / 2 || isBeat(tick)) return false;
    return hasStep(ending, tick, pitch) && hasStep(beginning, endTick, pitch);
  });
}

/** Room for all pitches of a tick, and for a step above and below them. */
const tickRoom = 256;

/** Ticks and pitches as one number each, rising, each once: sets of pitches by tick would take 50 times as much room. */
function soundsAt(notes: readonly Note[], tickOf: (note: Note) => number): readonly number[] {
  return risingSet(notes.map((note) => soundAt(tickOf(note), note.pitch)));
}

function soundAt(tick: number, pitch: number): number {
  return tick * tickRoom + step + pitch;
}

function hasStep(sounds: readonly number[], tick: number, pitch: number): boolean {
  const own = soundAt(tick, pitch);
  for (let at = lastAtMost(sounds, own + step); (sounds[at] ?? -1) >= own - step; at--)
    if (sounds[at] !== own) return true;
  return false;
}
