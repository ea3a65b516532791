import { barTicks } from '../musicxml/measures.js';
import type { Cursor } from './cursor.js';
import { barKey, putInBar } from './note.js';
import { type DraftNote, type MeiState, ppq, ticks } from './state.js';

/** A bar of some bars ago, once more. */
export function repeatBars(ago: number, cursor: Cursor, state: MeiState): void {
  const { staff, voice, measure } = cursor;
  const before = state.byBar.get(barKey(voice, measure - ago)) ?? [];
  again(before, 0, cursor, state);
  cursor.fillsBar = true;
  cursor.at += (state.measures[measure - ago]?.length ?? barTicks(staff.metre ?? state.metre, ppq)) / ppq;
}

/** What was before it in the bar, once more. Unit: quarters. */
export function repeatSpan(length: number, cursor: Cursor, state: MeiState): void {
  const [from, to] = [ticks(cursor.at - length), ticks(cursor.at)];
  const here = state.byBar.get(barKey(cursor.voice, cursor.measure)) ?? [];
  const inBar = here.filter(({ offset }) => offset >= from && offset < to);
  if (from >= 0) again(inBar, to - from, cursor, state);
  else {
    // it may stand first, and repeat the end of the bar before
    const whole = state.measures[cursor.measure - 1]?.length ?? 0;
    const last = state.byBar.get(barKey(cursor.voice, cursor.measure - 1)) ?? [];
    again(
      last.filter(({ offset }) => offset >= whole + from),
      -(whole + from),
      cursor,
      state,
    );
  }
  cursor.at += length;
}

function again(notes: readonly DraftNote[], later: number, cursor: Cursor, state: MeiState): void {
  const { staff, measure } = cursor;
  state.room -= notes.length;
  if (state.room < 0) {
    const message = 'bars that say others again have more than a million notes';
    if (!state.found.hasErrors)
      state.found.error('score-too-large', undefined, message, 'see what repeats what');
    return;
  }
  const copies = notes.map((note): DraftNote => {
    const copy = {
      ...note,
      measure,
      offset: note.offset + later,
      id: `${note.id}-again`,
      tiedFrom: false,
      tiedTo: false,
    };
    const around = state.around.get(note);
    if (around) state.around.set(copy, around);
    if (state.performed.has(note)) state.performed.add(copy);
    state.staffOf.set(copy, staff);
    return copy;
  });
  for (const copy of copies) staff.notes.push(copy);
  putInBar(copies, cursor, state);
}
