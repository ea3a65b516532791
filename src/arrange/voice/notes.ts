import type { Slice, SliceNote } from '../slices.js';
import type { SketchNote } from '../types.js';
import { rest } from './layouts.js';

type PartNote = Omit<SketchNote, 'part'>;

/** Whose notes a voice takes: the tune's alone, those under the tune, or any. */
export type Takes = 'tune' | 'under the tune' | 'any';

/**
 * The notes of one voice: it strikes where the sketch strikes its tone, at the time, with the length and velocity of the
 * sketch's note; a tone that the sketch holds over, it holds; where it moves while the sketch holds, it strikes at the
 * slice. A note ends no later than the voice's next one begins.
 *
 * @param pitches the voice's pitch for each slice; −1 where it rests
 */
export function notesOfVoice(
  slices: readonly Slice[],
  pitches: readonly number[],
  takes: Takes,
): readonly PartNote[] {
  const notes: PartNote[] = [];
  slices.forEach((slice, index) => {
    const pitch = pitches[index] ?? rest;
    if (pitch === rest) return;
    const source = sourceOf(notesFor(takes, slice.notes, pitch), pitch);
    if (!source) return;
    const last = notes.at(-1);
    const isHeld = !source.isStruck && last?.pitch === pitch && pitches[index - 1] === pitch;
    if (isHeld && last) {
      notes[notes.length - 1] = { ...last, endTick: Math.max(last.endTick, source.endTick) };
      return;
    }
    const tick = source.isStruck ? source.tick : slice.tick;
    notes.push({ tick, endTick: source.endTick, pitch, velocity: source.velocity });
  });
  return notes.map((note, index) => endedBy(note, notes[index + 1]));
}

/** The notes of a tone that a voice may follow: one that sounds in the tune alone is followed by all. */
function notesFor(takes: Takes, notes: readonly SliceNote[], pitch: number): readonly SliceNote[] {
  if (takes === 'any') return notes;
  if (takes === 'tune') return notes.slice(-1);
  const under = notes.slice(0, -1);
  return under.some((note) => (note.pitch - pitch) % 12 === 0) ? under : notes;
}

/** The sketch's note of that tone: struck rather than held, and the nearest; of two as near the lower. */
function sourceOf(notes: readonly SliceNote[], pitch: number): SliceNote | undefined {
  const same = notes.filter((note) => (note.pitch - pitch) % 12 === 0);
  const struck = same.filter(({ isStruck }) => isStruck);
  return (struck.length > 0 ? struck : same).reduce<SliceNote | undefined>(
    (best, note) => (best && Math.abs(best.pitch - pitch) <= Math.abs(note.pitch - pitch) ? best : note),
    undefined,
  );
}

function endedBy(note: PartNote, next: PartNote | undefined): PartNote {
  return next && next.tick < note.endTick ? { ...note, endTick: Math.max(note.tick + 1, next.tick) } : note;
}
