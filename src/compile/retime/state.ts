import type { ArticulationMap } from '../../map/index.js';
import type { Duration, MeasuredNote } from '../../midi/index.js';
import type { TimingOptions } from '../../timing/index.js';
import type { MeasuredLine } from '../analyse/index.js';
import { type Decided, type DecidedNotes, onsetOf } from '../decide/index.js';

/** A part whose timing is to be changed. */
export interface RetimedPart {
  readonly line: MeasuredLine;
  readonly decided: Decided;
  readonly map: ArticulationMap;
  readonly options: TimingOptions;
  /** How long after its onset a compensated note is to be heard; at its onset, if absent. */
  readonly heardAfter?: (note: MeasuredNote) => Duration;
}

/** Where the notes of a part begin and end by now, in ticks: a place for each row. */
export interface Ticks {
  readonly starts: Float64Array;
  readonly ends: Float64Array;
}

/** A number for each row. */
export function perRow({ length }: DecidedNotes, of: (row: number) => number): Float64Array {
  const numbers = new Float64Array(length);
  for (let row = 0; row < length; row++) numbers[row] = of(row);
  return numbers;
}

/** The rows of each onset, which stand together, from the first to before the first of the next onset. */
export interface OnsetRows {
  /** How many onsets there are. */
  readonly length: number;
  from(onset: number): number;
  to(onset: number): number;
  of(onset: number): number[];
}

const known = new WeakMap<DecidedNotes, OnsetRows>();

export function onsetRows({ line, decided }: RetimedPart): OnsetRows {
  const rows = known.get(decided) ?? rowsOfOnsets(decided, line.measures.onsets.length);
  known.set(decided, rows);
  return rows;
}

function rowsOfOnsets(decided: DecidedNotes, length: number): OnsetRows {
  const firsts = new Uint32Array(length + 1).fill(decided.length);
  let onset = 0;
  for (let row = 0; row < decided.length; row++)
    for (const own = onsetOf(decided, row); onset <= own; onset++) firsts[onset] = row;
  const from = (of: number) => firsts[of] ?? decided.length;
  return {
    length,
    from,
    to: (of) => from(of + 1),
    of: (of) => Array.from({ length: from(of + 1) - from(of) }, (_, at) => from(of) + at),
  };
}

/** The first start of each onset's notes, in ticks; endless where it has none. */
export function firstStarts({ line, decided }: RetimedPart, starts: Float64Array): Float64Array {
  const found = new Float64Array(line.measures.onsets.length).fill(Number.POSITIVE_INFINITY);
  for (let row = 0; row < decided.length; row++) {
    const onset = onsetOf(decided, row);
    found[onset] = Math.min(found[onset] ?? 0, starts[row] ?? 0);
  }
  return found;
}

/** The last start of each onset's notes, in ticks; 0 where it has none. */
export function lastStarts({ line, decided }: RetimedPart, starts: Float64Array): Float64Array {
  const found = new Float64Array(line.measures.onsets.length);
  for (let row = 0; row < decided.length; row++) {
    const onset = onsetOf(decided, row);
    found[onset] = Math.max(found[onset] ?? 0, starts[row] ?? 0);
  }
  return found;
}
