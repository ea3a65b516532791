import type { Findings } from '../diagnostic.js';
import type { Metre, Placed, ScoreMeasure, ScoreNote, Sign } from '../model.js';
import type { XmlElement } from '../xml/element.js';

type Draft<T> = { -readonly [K in keyof T]: T[K] };

export type DraftNote = Draft<ScoreNote>;

/** Divides by 2, 3, 5 and 7: MEI has no divisions of its own. */
export const ppq = 10080;

/** A staff of the score, which becomes a part. */
export interface Staff {
  readonly number: string;
  name: string;
  /** From written to sounding. Unit: semitones. */
  transposition: number;
  isPercussion: boolean;
  toldKey: boolean;
  metre: Metre | null;
  readonly notes: DraftNote[];
  readonly signs: Placed<Sign>[];
}

/** A control event that refers to notes, which are all known only at the end. */
export interface Reference {
  readonly element: XmlElement;
  readonly measure: number;
}

export interface MeiState {
  readonly found: Findings;
  readonly staves: Map<string, Staff>;
  readonly measures: Draft<ScoreMeasure>[];
  readonly tempi: Placed<{ readonly quartersPerMinute: number }>[];
  readonly references: Reference[];
  /** Notes, and the first note of each chord, by their ids. */
  readonly byId: Map<string, readonly DraftNote[]>;
  metre: Metre | null;
  ending: readonly number[] | null;
  /** Of `rptstart` at a bar's end: the next begins a section. */
  opensNext: boolean;
}

export function staffOf(state: MeiState, number: string): Staff {
  const known = state.staves.get(number);
  if (known) return known;
  const staff: Staff = {
    number,
    name: '',
    transposition: 0,
    isPercussion: false,
    toldKey: false,
    metre: null,
    notes: [],
    signs: [],
  };
  state.staves.set(number, staff);
  return staff;
}

export function ticks(quarters: number): number {
  return Math.round(quarters * ppq);
}
