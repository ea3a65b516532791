import type { Findings } from '../diagnostic.js';
import type { Metre, Placed, ScoreMeasure, ScoreNote, Sign } from '../model.js';
import type { Draft } from '../musicxml/state.js';
import type { Neighbours, Spelled } from '../neighbours.js';
import type { XmlElement } from '../xml/element.js';
import type { PassedOver } from './passed-over.js';

export type DraftNote = Draft<ScoreNote>;

/** Divides by 2, 3, 5 and 7: MEI has no divisions of its own. */
export const ppq = 10080;

/** A staff of the score. It becomes a part, alone or with others of its group. */
export interface Staff {
  readonly number: string;
  name: string;
  /** Staves of one instrument that share a name are one part: what they have in common. */
  group: string;
  /** 0–15; null where the score does not say. */
  channel: number | null;
  /** From written to sounding. Unit: semitones. */
  transposition: number;
  isPercussion: boolean;
  toldKey: boolean;
  toldMicrotone: boolean;
  metre: Metre | null;
  /** Key signature as sharps. */
  key: number;
  /** Ticks of a quarter in dur.ppq; undefined where the score does not say. */
  ppq: number | undefined;
  /** Open strings of a tablature, by course. Unit: MIDI notes. */
  readonly courses: Map<string, number>;
  readonly notes: DraftNote[];
  /** Alterations in force in this bar, by step and octave. */
  readonly alters: Map<string, number>;
  readonly signs: Placed<Sign>[];
}

/** A control event that refers to notes, which are all known only at the end. */
export interface Reference {
  readonly element: XmlElement;
  readonly measure: number;
}

/** Notes and bars from one place to another that are written as a tuplet by an element of their own. */
export interface TupletSpan {
  readonly end: string;
  /** Written length times this is the real one. */
  readonly scale: number;
}

/** A note's written pitch, and the steps around it as key and accidentals have them. */
export interface Around {
  readonly spelled: Spelled | undefined;
  readonly neighbours: Neighbours;
}

export interface MeiState {
  readonly found: Findings;
  readonly passedOver: PassedOver;
  readonly staves: Map<string, Staff>;
  readonly measures: Draft<ScoreMeasure>[];
  readonly tempi: Placed<{ readonly quartersPerMinute: number }>[];
  readonly references: Reference[];
  /** Notes, and the notes of each chord, by their ids. */
  readonly byId: Map<string, readonly DraftNote[]>;
  /** The staff of each note. */
  readonly staffOf: Map<DraftNote, Staff>;
  /** Where bars, rests and spaces begin that control events may refer to, by their ids. */
  readonly places: Map<string, { readonly measure: number; readonly offset: number }>;
  /** Notes by staff, layer and bar, for bars that say them again. */
  readonly byBar: Map<string, DraftNote[]>;
  /** How many notes bars that say others again may still have. */
  room: number;
  /** Written pitches and the steps around them, for ornaments. */
  readonly around: Map<DraftNote, Around>;
  /** Notes whose octave is said as it sounds. */
  readonly performed: Set<DraftNote>;
  readonly tupletSpans: ReadonlyMap<string, TupletSpan>;
  /** Length of notes in a tuplet that is only an attribute (num.default, numbase.default). */
  tupletScale: number;
  /** No note says how it is inflected when it sounds: the key signature does. */
  readonly isByKey: boolean;
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
    group: number,
    channel: null,
    transposition: 0,
    isPercussion: false,
    toldKey: false,
    toldMicrotone: false,
    metre: null,
    key: 0,
    ppq: undefined,
    courses: new Map(),
    notes: [],
    alters: new Map(),
    signs: [],
  };
  state.staves.set(number, staff);
  return staff;
}

export function ticks(quarters: number): number {
  return Math.round(quarters * ppq);
}
