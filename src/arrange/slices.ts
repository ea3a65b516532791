import type { Clock } from '../midi/index.js';
import { struckTogether } from './struck.js';
import type { Chord, SketchNote } from './types.js';

/** A note in a slice of a sketch. */
export interface SliceNote extends SketchNote {
  /** Struck in this slice; else held over from before. */
  readonly isStruck: boolean;
}

/** What sounds in a sketch from one stroke to the next. */
export interface Slice {
  readonly tick: number;
  /** The next slice's tick; where nothing follows, the last release. */
  readonly endTick: number;
  /** Rising. */
  readonly notes: readonly SliceNote[];
}

/** Notes that lie within this after the first are one chord. Unit: ms; the chord window of the maps. */
const chordWindow = 80;

/**
 * A note that is released so soon behind a new stroke was slow to leave, and is not held over. Unit: ms (common
 * practice, no source).
 */
const drag = 80;

/** Cuts a sketch where it is struck: each slice has what is struck there and what is held over from before. */
export function slicesOf(notes: readonly SketchNote[], clock: Pick<Clock, 'ms'>): readonly Slice[] {
  const inOrder = notes
    .filter(({ tick, endTick }) => endTick > tick)
    .sort((a, b) => a.tick - b.tick || a.pitch - b.pitch || a.part - b.part);
  const groups = struckTogether(inOrder, clock, chordWindow);
  let held: readonly SketchNote[] = [];
  return groups.map((group, index): Slice => {
    const tick = group[0]?.tick ?? 0;
    const struckAt = group.at(-1)?.tick ?? tick;
    const struck = new Set(group.map(({ pitch }) => pitch));
    const over = held.filter(
      ({ endTick, pitch }) => clock.ms(endTick) - clock.ms(struckAt) > drag && !struck.has(pitch),
    );
    held = [...over, ...group];
    const sounding = [
      ...over.map((note) => ({ ...note, isStruck: false })),
      ...group.map((note) => ({ ...note, isStruck: true })),
    ];
    const end = sounding.reduce((last, { endTick }) => Math.max(last, endTick), tick);
    return {
      tick,
      endTick: groups[index + 1]?.[0]?.tick ?? end,
      notes: sounding.sort((a, b) => a.pitch - b.pitch || a.part - b.part),
    };
  });
}

/** The chords of a sketch: each holds until the next is struck, also where the sketch rests. */
export function chordsOfSketch(notes: readonly SketchNote[], clock: Pick<Clock, 'ms'>): readonly Chord[] {
  return slicesOf(notes, clock).map(({ tick, endTick, notes: sounding }) => {
    return { tick, endTick, tones: sounding.map(({ pitch, part }) => ({ pitch, part })) };
  });
}
