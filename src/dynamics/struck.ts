import type { Line } from '../midi/index.js';

/** An onset of a line, by its top note, as far as loudness is concerned. */
export interface Struck {
  readonly tick: number;
  /** Where the last of its notes is struck: a chord may be spread. */
  readonly lastTick: number;
  /** Where the last note ends that sounds with it, a note that is held from before among them. */
  readonly endTick: number;
  /** MIDI note and note-on velocity of the top note. */
  readonly pitch: number;
  readonly velocity: number;
  /** To the next onset; the held time for the last. */
  readonly paceMs: number;
  /** How long the top note is held, in milliseconds; not past the next onset, which goes on without it. */
  readonly heldMs: number;
  /** Silence of the whole line after it, in milliseconds; endless for the last. */
  readonly restAfterMs: number;
  /** Whether the music asks for a breath after it. */
  readonly breath: boolean;
}

const breaths = ['breath-mark', 'caesura'];

/**
 * A line's onsets as the shape needs them. A breath mark that holds over several onsets (it was never ended) stands for
 * one breath, after the last of them.
 */
export function struckOf({ onsets }: Line): readonly Struck[] {
  let endTick = 0;
  return onsets.map(({ tick, lastTick, top, notes, pace }, index) => {
    const next = onsets[index + 1]?.top.marks;
    for (const note of notes) endTick = Math.max(endTick, note.endTick);
    return {
      tick,
      lastTick,
      endTick,
      pitch: top.pitch,
      velocity: top.velocity,
      paceMs: pace.ms,
      heldMs: Math.min(top.held.ms, pace.ms),
      restAfterMs: top.restAfter.ms,
      breath: breaths.some((mark) => top.marks.has(mark) && next?.has(mark) !== true),
    };
  });
}
