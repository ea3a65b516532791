import { type Column, picked } from '../../midi/index.js';
import { LineNote, type MeasuredLine } from '../analyse/index.js';
import type { Decided, Numbered } from './decided.js';
import type { Decision } from './decision.js';
import type { Settled } from './each.js';
import type { TopDecisions } from './tops.js';

/**
 * What was decided of a line: what its top note has for each note of a chord, unless they were settled by themselves.
 * Where each note has a row, its place is that of the line's own columns.
 */
export function rowsOf(
  line: MeasuredLine,
  { names, numberOf }: Numbered,
  tops: TopDecisions,
  settled: Settled,
): Decided {
  const { notes, onset } = line.measures;
  const rows = new Uint32Array(notes.length);
  const articulation = new Uint16Array(notes.length);
  const unfit = names.length;
  let length = 0;
  for (let note = 0; note < notes.length; note++) {
    let number = tops.number(onset[note] ?? 0);
    if (settled.has(note)) {
      const own = settled.get(note);
      number = own ? numberOf(own.articulation) : unfit;
    }
    if (number === unfit) continue;
    articulation[length] = number;
    rows[length] = note;
    length += 1;
  }
  const isWhole = length === notes.length;
  const of = <C extends Column>(column: C): C =>
    isWhole ? column : picked(column, rows.subarray(0, length));
  const noteOf = (row: number) => new LineNote(line.measures, rows[row] ?? 0);
  return {
    length,
    names,
    articulation: articulation.subarray(0, length),
    onset: of(onset),
    on: of(notes.on),
    off: of(notes.off),
    tick: of(notes.tick),
    endTick: of(notes.endTick),
    pitch: of(notes.pitch),
    decision: (row) => {
      const own = settled.get(rows[row] ?? 0) ?? decisionWith(noteOf(row), line, tops);
      if (!own) throw new Error(`row ${row} was not decided`);
      return own;
    },
    isKept: (row) => {
      const note = rows[row] ?? 0;
      return settled.has(note) ? settled.get(note)?.kept !== undefined : tops.isKept(onset[note] ?? 0);
    },
    noteOf,
  };
}

/** What was decided for the top note of a note's chord, for that note. */
function decisionWith(note: LineNote, { measures }: MeasuredLine, tops: TopDecisions): Decision | undefined {
  const topNote = measures.topOf(note.onset);
  if (topNote === undefined) return undefined;
  const top = tops.at(note.onset, new LineNote(measures, topNote));
  return top && (top.note.onIndex === note.onIndex ? top : { ...top, note, decidedBy: top.note });
}
