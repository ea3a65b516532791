import type { Line } from '../midi/index.js';

/** An onset of a line, by its top note, as far as loudness is concerned. */
export interface Struck {
  readonly tick: number;
  /** Where the last of its notes ends. */
  readonly endTick: number;
  /** MIDI note and note-on velocity of the top note. */
  readonly pitch: number;
  readonly velocity: number;
  /** To the next onset; the held time for the last. */
  readonly paceMs: number;
  /** How long the top note is held, in milliseconds. */
  readonly heldMs: number;
  /** Silence after it, in milliseconds; endless for the last. */
  readonly restAfterMs: number;
  /** Whether the music asks for a breath after it. */
  readonly breath: boolean;
}

const breaths = ['breath-mark', 'caesura'];

/**
 * A line's onsets as the shape needs them. A breath mark that holds over several onsets (it was never ended) stands for
 * one breath, after the last of them.
 */
export function struckOf(line: Line): readonly Struck[] {
  return line.onsets.map(({ tick, top, notes, pace }, index) => {
    const next = line.onsets[index + 1]?.top.marks;
    return {
      tick,
      endTick: notes.reduce((latest, note) => Math.max(latest, note.endTick), top.endTick),
      pitch: top.pitch,
      velocity: top.velocity,
      paceMs: pace.ms,
      heldMs: top.held.ms,
      restAfterMs: top.restAfter.ms,
      breath: breaths.some((mark) => top.marks.has(mark) && next?.has(mark) !== true),
    };
  });
}
