import { inOrder, noteTexts } from './marks.js';
import type { Performance, PlayedNote, PlayedOrnament, PlayedPart } from './performance.js';

/** Whether a part has a sound for a mark, so that its notes stay as they are written. */
export type HasSound = (part: PlayedPart, mark: string) => boolean;

/**
 * A performance in which signs are played out as notes, but for those whose mark the part has a sound for: a trill that
 * a library has recorded is one note. The notes of one sign are joined.
 */
export function playedOut(performance: Performance, hasSound: HasSound): Performance {
  return { ...performance, parts: performance.parts.map((part) => withOrnaments(part, hasSound)) };
}

function withOrnaments(part: PlayedPart, hasSound: HasSound): PlayedPart {
  const isPlayedOut = ({ ornament }: PlayedNote) =>
    ornament !== null && !(ornament.canBeOneSound && ornament.marks.some((mark) => hasSound(part, mark)));
  if (!part.notes.some(isPlayedOut)) return part;
  const notes = part.notes
    .flatMap((note) => (isPlayedOut(note) ? notesOf(note) : [note]))
    .sort((a, b) => a.tick - b.tick || a.pitch - b.pitch);
  return { ...part, notes, texts: inOrder([...part.lasting, ...noteTexts(notes)]) };
}

function notesOf(note: PlayedNote): readonly PlayedNote[] {
  const { ornament } = note;
  if (!ornament) return [note];
  const others = note.marks.filter((mark) => !ornament.marks.includes(mark));
  return ornament.notes.map((one, index): PlayedNote => {
    const [before, next] = [ornament.notes[index - 1], ornament.notes[index + 1]];
    const isJoined = next ? joins(one, next) : note.isSlurred || (before && isRun(before, one));
    return {
      ...note,
      ...one,
      marks: index === 0 ? others : [],
      isSlurred: isJoined === true,
      ornament: null,
    };
  });
}

type Sounding = PlayedOrnament['notes'][number];

function joins(one: Sounding, next: Sounding): boolean {
  return next.tick === one.endTick && one.pitch !== next.pitch;
}

/** Whether a last note is as quick as the one before, so that it is played like it: the end of a trill, of a late turn. */
function isRun(before: Sounding, last: Sounding): boolean {
  return joins(before, last) && last.endTick - last.tick <= 1.5 * (before.endTick - before.tick);
}
