import type { Place } from '../diagnostics/index.js';
import type { DynamicMark, LevelTable } from '../dynamics/index.js';
import type { Condition } from '../map/index.js';
import type { Duration } from '../midi/index.js';
import type { TimingOptions } from '../timing/index.js';

/** A text of a cue file, and where it stands. */
export interface Located {
  readonly text: string;
  readonly place: Place;
}

/** Which notes of a part a layer doubles; both must fit. */
export interface LayerChoice {
  /** As they are spelled: what they mean depends on the part's map. Any of them fits. */
  readonly marked?: readonly Located[];
  readonly when?: Condition;
  /** What is chosen: whole chords, by their strongest note, or note by note. */
  readonly each: 'chord' | 'note';
}

/** A second library that doubles chosen notes of a part. */
export interface CueLayer {
  readonly name: string;
  /** The part's own library where it is absent. */
  readonly map?: Located;
  /** The articulation that all its notes get; as its map decides where it is absent. */
  readonly articulation?: Located;
  /** 1–16; the part's where it is absent. */
  readonly channel?: number;
  /** Every note, where it is absent. */
  readonly on?: LayerChoice;
  /** The velocity is scale times the part's, and add. */
  readonly velocity: { readonly scale: number; readonly add: number };
  readonly heldAtMost?: Duration;
  /** Unit: semitones. */
  readonly transpose: number;
  /** Against the part. Unit: dB. */
  readonly level?: number;
  /** −1 left … 1 right; where the part is heard, if it is absent. */
  readonly seat?: number;
  readonly timing?: { readonly compensate: boolean; readonly joins: boolean };
  readonly place: Place;
}

/** Where a part's loudness comes from. Amounts are in marks of the scale (p to mp is 1). */
export type CueDynamics =
  | {
      readonly source: 'keep';
      /** The controller that was recorded; found where it is absent. */
      readonly from?: number;
      /** What its values sounded like when they were played; as the identity table where it is absent. */
      readonly levels?: LevelTable;
    }
  | { readonly source: 'marks'; readonly start: DynamicMark }
  | {
      readonly source: 'shape';
      readonly start: DynamicMark;
      readonly arch: number;
      readonly velocities: number;
      readonly swell: number;
      readonly decay: number;
    };

/** How the notes of chords are dealt to the players of a part. */
export interface CueDivide {
  readonly by: (typeof deals)[number];
  /** How many players each desk has, from the first. */
  readonly players: readonly number[];
}

/** The ways of dealing notes. */
export const deals = ['top-down', 'bottom-up', 'in-turn'] as const;

/** A track of the source and what becomes of it. */
export interface CuePart {
  readonly name: string;
  /** A track's name, or its number counted from 1; the one that has notes on the channel, if it is absent. */
  readonly track?: string | number;
  /** Where the track is named, or else the channel. */
  readonly trackPlace: Place;
  /** 1–16; there where the track is absent. */
  readonly channel?: number;
  readonly map: Located;
  /** Absent where nothing is asked for. The defaults of the cue are in it. */
  readonly timing?: TimingOptions;
  /** Absent where the part is divided: then its desks say it. */
  readonly players?: number;
  readonly divide?: CueDivide;
  /** Unit: dB. */
  readonly level?: number;
  /** −1 left … 1 right. */
  readonly seat?: number;
  readonly dynamics?: CueDynamics;
  readonly layers: readonly CueLayer[];
  readonly place: Place;
}

/** A checked cue file; what it says of other files is not checked yet. */
export interface Cue {
  readonly file: string;
  readonly title?: string;
  /** Paths from the cue's folder, which stay below it as far as their names tell. */
  readonly source: Located;
  readonly output: Located;
  readonly seed: number;
  /** Empty bars before the music. */
  readonly preroll: number;
  /** Controllers that levels and seats are written to. */
  readonly controllers: { readonly level: number; readonly seat: number };
  /** How loud measured libraries are at mf and level 0; the softest of them, where it is absent. Unit: LUFS. */
  readonly referenceLevel?: number;
  readonly parts: readonly CuePart[];
  /** Parts of the file that this cue was left without; their tracks stay as they are. */
  readonly leftOut?: readonly CuePart[];
}
