import type { Findings, Spot } from '../diagnostic.js';
import type { Figure, Jump, Metre, Ornament, Placed, ScoreNote, Sign, Swing } from '../model.js';
import type { XmlElement } from '../xml/element.js';
import type { PartHead } from './part-list.js';
import type { Transposition } from './pitch.js';

export type Draft<T> = { -readonly [K in keyof T]: T[K] };

/** What one part says of a bar that holds for all parts. */
export interface MeasureFacts {
  number: string;
  /** Ticks up to the last note's end. */
  content: number;
  metre: Metre | null;
  repeatFrom: boolean;
  repeatTo: { readonly times: number | null; readonly afterJump: boolean } | null;
  endingStart: readonly number[] | null;
  /** Where the ending's bracket stops: with this bar, or before it goes on (discontinue). */
  endingStops: boolean;
  readonly jumps: Jump[];
}

/** A slur's beginning or end. */
export interface SlurEnd extends Spot {
  readonly type: 'start' | 'stop';
  readonly number: string;
  readonly measure: number;
  readonly note: Draft<ScoreNote>;
}

/** A trill's line: the marks of its first note, and the notes behind that in its voice, as they would be trilled. */
export interface WavyLine {
  readonly voice: string;
  readonly marks: readonly string[];
  readonly notes: { readonly note: Draft<ScoreNote>; readonly figure: Figure }[];
}

/** A part while it is read. */
export interface PartState {
  readonly ppq: number;
  readonly found: Findings;
  readonly head: PartHead;
  readonly isConcertPitch: boolean;
  readonly notes: Draft<ScoreNote>[];
  readonly signs: Placed<Sign>[];
  readonly tempi: Placed<{ readonly quartersPerMinute: number }>[];
  readonly swings: Placed<Swing>[];
  readonly slurs: SlurEnd[];
  readonly measures: MeasureFacts[];
  /** Of all staves, by the staff's number; 0 is all staves that have none of their own. */
  readonly transpositions: Map<number, Transposition>;
  /** Key signatures by staff, as sharps; 0 is all staves that have none of their own. */
  readonly keys: Map<number, number>;
  /** Alterations in force in this bar, by staff, step and octave. */
  readonly alters: Map<string, number>;
  /** Trills' wavy lines that are open, by their numbers. */
  readonly waves: Map<string, WavyLine>;
  /** Notes that a glissando or slide leads away from, by its kind and number. */
  readonly glides: Map<string, { readonly note: Draft<ScoreNote>; readonly spot: Spot }>;
  /** Tremolo of the chord that is read. */
  chordTremolo: readonly Ornament[];
  divisions: number;
  hasDivisions: boolean;
  metre: Metre | null;
  measure: number;
  /** Quarters from the bar's beginning. */
  cursor: number;
  /** Where the last note that is no chord tone begins. Unit: quarters. */
  onset: number;
  furthest: number;
  toldMicrotone: boolean;
  toldKey: boolean;
}

export function ticksOf(state: PartState, quarters: number): number {
  return Math.round(quarters * state.ppq);
}

/** Passes of a `time-only` attribute: "1, 3". */
export function passesOf(element: XmlElement | undefined): { passes?: readonly number[] } {
  const text = element?.attributes.get('time-only');
  if (text === undefined) return {};
  const passes = numbersIn(text);
  return passes.length > 0 ? { passes } : {};
}

/** Whole numbers from 1 in a list: "1, 2"; at most 1000 each. */
export function numbersIn(text: string): readonly number[] {
  return (text.match(/\d{1,4}/gu) ?? []).map(Number).filter((one) => one >= 1 && one <= 1000);
}

/** A jump stands once in a bar, however often the file says it. */
export function putJump(jump: Jump | undefined, state: PartState): void {
  const { jumps } = state.measures[state.measure] ?? {};
  if (jump && !jumps?.some(({ kind }) => kind === jump.kind)) jumps?.push(jump);
}
