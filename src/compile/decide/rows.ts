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
  let decisions: readonly Decision[] | undefined;
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
    get decisions() {
      decisions ??= decisionsOf(line, tops, settled);
      return decisions;
    },
    isKept: (row) => {
      const note = rows[row] ?? 0;
      return settled.has(note) ? settled.get(note)?.kept !== undefined : tops.isKept(onset[note] ?? 0);
    },
    noteOf: (row) => new LineNote(line.measures, rows[row] ?? 0),
  };
}

function decisionsOf(line: MeasuredLine, tops: TopDecisions, settled: Settled): readonly Decision[] {
  const decisions: Decision[] = [];
  let note = 0;
  for (const onset of line.onsets) {
    const top = tops.at(onset.index);
    for (const one of onset.notes) {
      const own = settled.has(note) ? settled.get(note) : top && sameFor(one, top);
      if (own) decisions.push(own);
      note += 1;
    }
  }
  return decisions;
}

/** What was decided for a chord's top note, for one of its notes. */
function sameFor(note: Decision['note'], top: Decision): Decision {
  return note === top.note ? top : { ...top, note, decidedBy: top.note };
}
