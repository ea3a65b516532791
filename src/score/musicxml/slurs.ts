import type { PartState, SlurEnd } from './state.js';

/**
 * Tells each note of a part whether a slur goes on from it to the next note: it stands, in the voice of the slur's
 * beginning or end, at or after the one and before the other. Slurs of one number are paired in order of the file; an
 * end may stand before its beginning there, in another voice.
 */
export function slurNotes(state: PartState): void {
  const open = new Map<string, SlurEnd>();
  for (const end of state.slurs) {
    const other = open.get(end.number);
    if (!other || other.type === end.type) {
      if (other) unpaired(other, state);
      open.set(end.number, end);
      continue;
    }
    open.delete(end.number);
    const [from, to] = end.type === 'stop' ? [other, end] : [end, other];
    cover(from, to, state);
  }
  for (const end of open.values()) unpaired(end, state);
}

function unpaired(end: SlurEnd, state: PartState): void {
  const what = end.type === 'start' ? 'begins here and never ends' : 'ends here and never began';
  state.found.warning(
    'score-unpaired',
    end,
    `a slur ${what}`,
    `pair it with a slur of number ${end.number.slice(0, 20)}`,
  );
}

function cover(from: SlurEnd, to: SlurEnd, state: PartState): void {
  const voices = new Set([from.note.voice, to.note.voice]);
  const isBefore = (a: Position, b: Position) =>
    a.measure < b.measure || (a.measure === b.measure && a.offset < b.offset);
  // a grace note slurred to its note stands at the same offset, before it
  if (from.note.grace && !isBefore(from.note, to.note)) from.note.isSlurred = true;
  for (const note of notesBetween(state, from.measure, to.measure))
    if (voices.has(note.voice) && !isBefore(note, from.note) && isBefore(note, to.note))
      note.isSlurred = true;
}

interface Position {
  readonly measure: number;
  readonly offset: number;
}

/** Notes stand by measure in the part: those of a few measures are found without looking at all. */
function* notesBetween({ notes }: PartState, first: number, last: number) {
  let low = 0;
  let high = notes.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((notes[middle]?.measure ?? 0) < first) low = middle + 1;
    else high = middle;
  }
  for (let index = low; index < notes.length; index++) {
    const note = notes[index];
    if (!note || note.measure > last) return;
    yield note;
  }
}
