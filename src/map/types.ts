import type { Place } from '../diagnostics/index.js';
import type { Duration } from '../midi/index.js';
import type { Condition } from './conditions/index.js';
import type { SwitchMessage } from './switch-messages/index.js';

/** Notes whose onsets lie within this were struck together, where no map says otherwise. */
export const defaultChordWindow = { unit: 'ms', ms: 80 } as const satisfies Duration;

/** The values of controller 10 that a map can tell of, by their names, from the left. */
export const panValues = { left: 1, 'half-left': 32, 'half-right': 96, right: 127 } as const;

/** A time, and for which notes it holds: the first step of a list that fits counts; the last has no `when`. */
export interface TimeStep {
  readonly when?: Condition;
  readonly is: Duration;
}

/** A sound of General MIDI in the place of a library's. */
export interface StandInKeys {
  /** On the wire, 0–127. */
  readonly program?: number;
  /** The key (MIDI note) on which all notes sound; without a program, of the drum kit. */
  readonly key?: number;
  /** A share of the held time (0.5 for 50 %), or how long a note sounds at most. */
  readonly length?: number | Duration;
  /** What velocities are multiplied by. */
  readonly velocity?: number;
}

export interface Articulation {
  readonly name: string;
  /** Canonical names of the marks that this sound realises. */
  readonly means: readonly string[];
  /** In the order in which they are sent; empty where nothing is sent. */
  readonly switch: readonly SwitchMessage[];
  /** The key (MIDI note) on which its notes go out; absent where they keep their own. */
  readonly key?: number;
  /** The range into which played velocities 1–127 are laid; absent where they stay. */
  readonly velocity?: { readonly into: readonly [least: number, most: number] };
  /** How far its joined notes are held over the next onset. */
  readonly joins?: { readonly overlap: readonly TimeStep[] };
  /** The shortest and longest time that its notes are held. */
  readonly length?: { readonly min?: Duration; readonly max?: Duration };
  readonly loudness: 'velocity' | 'controller';
  /** From note-on until the note is heard to begin. */
  readonly speaksAfter: readonly TimeStep[];
  /** What it is heard by where the library is not there. */
  readonly standIn?: StandInKeys;
  readonly place: Place;
}

export interface Rule {
  /** From 0, in the order of the map. */
  readonly index: number;
  /** Canonical mark names, any of which fits; absent where the rule asks for none. */
  readonly marked?: readonly string[];
  /** Absent where the rule has no `when`. */
  readonly when?: Condition;
  /** The name of an articulation of the map. */
  readonly use: string;
  readonly place: Place;
}

export interface ExampleNote {
  readonly pitch: number;
  readonly held: Duration;
  /** Onset to next onset; absent: the note's held time and 20 ms (detached, the next follows at once). */
  readonly pace?: Duration;
  readonly velocity: number;
  readonly marked: readonly string[];
}

export interface Example {
  readonly notes: readonly ExampleNote[];
  readonly expect: readonly string[];
  /** Quarter notes per minute. */
  readonly bpm: number;
  readonly place: Place;
}

export interface Switching {
  /** What keys do that do not say for themselves; see `isHeldKey`. */
  readonly notes: 'latching' | 'momentary';
  readonly lead: Duration;
  readonly tap: Duration;
  readonly velocity: number;
  readonly restate: { readonly afterRest?: Duration; readonly everyBars?: number };
}

/** A checked articulation map: names resolved, pitches as MIDI notes, defaults filled in. */
export interface ArticulationMap {
  readonly file: string;
  /** The files that lend to it, from the nearest on. */
  readonly bases: readonly string[];
  readonly library: string;
  readonly instrument: string;
  readonly family: string;
  readonly players?: number;
  /** Where the recording sits on the stage: −1 left … 1 right; the middle where it is absent. */
  readonly seat?: number;
  /** How much of the stage the recording fills: 0 (a point) to 1 (all of it). */
  readonly width?: number;
  /**
   * What values of controller 10 do to its recordings: how much louder the right side becomes than the left, against 64;
   * as RP-036 has it, if absent. Unit: dB.
   */
  readonly pan?: ReadonlyMap<number, number>;
  /** Loudness at mf. Unit: LUFS. */
  readonly referenceLevel?: number;
  /** The octave number this library prints for MIDI note 60. */
  readonly middleC: 3 | 4 | 5;
  readonly range: { readonly low: number; readonly high: number };
  /** Semitones that the library is sent over what is written. */
  readonly transpose: number;
  /** Whether a note counts as held until the sustain pedal is released. */
  readonly pedal: 'lengthens' | 'ignored';
  readonly switching: Switching;
  readonly chords: 'top' | 'each';
  readonly chordWindow: Duration;
  /** In file order. */
  readonly articulations: ReadonlyMap<string, Articulation>;
  /** A share: 0.15 for 15 %. */
  readonly steadiness: number;
  readonly rules: readonly Rule[];
  readonly dynamics?: { readonly controller: number; readonly levels: ReadonlyMap<string, number> };
  readonly examples: readonly Example[];
}
