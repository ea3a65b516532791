import type { Ornament, ScoreNote } from '../model.js';
import type { PlayedBar } from './performance.js';
import type { Swinger } from './swing.js';
import { unfold } from './timeline.js';

/** A written note at a place of the performance, while it is worked on. */
export interface Sounding {
  readonly note: ScoreNote;
  readonly bar: number;
  tick: number;
  /** Where it ends as written, ties counted in. */
  endTick: number;
  /** Under a slur that goes on at its end (at the end of its last tied note). */
  isSlurred: boolean;
  /** Where its trill ends, of a note that is held further. */
  trillEnd?: number;
}

/** A part's notes at their ticks, in order, swung; grace notes still at the note that they belong to. */
export function soundingNotes(
  notes: readonly ScoreNote[],
  bars: readonly PlayedBar[],
  swing: Swinger,
): readonly Sounding[] {
  return unfold(notes, bars).flatMap(({ item: note, bar, tick }): Sounding[] => {
    const place = bars[bar];
    if (!place) return [];
    const barEnd = place.tick + place.length;
    // a Fine inside a bar: what begins there is not played
    if (tick >= barEnd && note.duration > 0) return [];
    const end = Math.min(tick + note.duration, Math.max(barEnd, tick));
    if (note.grace) return [{ note, bar, tick, endTick: tick, isSlurred: note.isSlurred }];
    return [{ note, bar, tick: swing(tick, place), endTick: swing(end, place), isSlurred: note.isSlurred }];
  });
}

/**
 * Joins tied notes to one. A tie goes on where a note of the same pitch begins at its end, in its own voice before
 * others, also over a repeat; one that leads nowhere ends with its note, and one that comes from nowhere is struck.
 *
 * @param onOpen called for each note with a tie that leads nowhere
 */
export function joinTies(notes: readonly Sounding[], onOpen: (note: ScoreNote) => void): readonly Sounding[] {
  const open = new Map<number, Sounding[]>();
  const joined: Sounding[] = [];
  for (const one of [...notes].sort((a, b) => a.tick - b.tick)) {
    const { pitch, tiedTo, grace } = one.note;
    const waiting = open.get(pitch) ?? [];
    open.set(pitch, waiting);
    for (const late of waiting.filter(({ endTick }) => endTick < one.tick - 1)) {
      forget(late, waiting);
      onOpen(late.note);
    }
    const before = meeting(one, waiting);
    if (before) {
      if (hasEndingTrill(before, one)) before.trillEnd ??= before.endTick;
      before.endTick = one.endTick;
      before.isSlurred = one.isSlurred;
      if (!tiedTo) forget(before, waiting);
      continue;
    }
    joined.push(one);
    if (tiedTo && !grace) waiting.push(one);
  }
  for (const waiting of open.values()) for (const { note } of waiting) onOpen(note);
  return joined;
}

/** Whether a trill's wavy line ends before a note that is tied to it. */
function hasEndingTrill({ note }: Sounding, next: Sounding): boolean {
  const isUnderLine = (one: Ornament) => one.kind === 'trill' && one.hasLine;
  return note.ornaments.some(isUnderLine) && !next.note.ornaments.some(isUnderLine);
}

function forget(one: Sounding, waiting: Sounding[]): void {
  waiting.splice(waiting.indexOf(one), 1);
}

/** The note whose tie ends in this one. */
function meeting({ note, tick }: Sounding, waiting: readonly Sounding[]): Sounding | undefined {
  if (!note.tiedFrom || note.grace) return undefined;
  const here = waiting.filter(({ endTick }) => Math.abs(endTick - tick) <= 1);
  return here.find((it) => it.note.voice === note.voice) ?? here[0];
}
