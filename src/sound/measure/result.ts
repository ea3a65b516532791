/** Bounds of a step, both inclusive; either may be absent. */
export interface StepBounds {
  readonly from?: number;
  readonly to?: number;
}

/** Which notes a step is for; null for all others. */
export type StepCondition =
  | { readonly velocity: StepBounds }
  /** MIDI notes. */
  | { readonly pitch: StepBounds }
  | { readonly 'overlaps-previous': true }
  | null;

export interface MeasuredStep {
  readonly when: StepCondition;
  readonly isMs: number;
  /** Between the quartiles. */
  readonly spreadMs: number;
  readonly used: number;
}

/** What was measured of an articulation. */
export interface MeasuredArticulation {
  /** From note-on until it is heard to begin; null where that could not be measured. */
  readonly speaksAfterMs: number | null;
  /** Half of what lies between the crossings of −15 and −6 dB: what the definition of an onset weighs. */
  readonly uncertaintyMs: number | null;
  /** When it has risen to 15 and to 6 dB below its loudest. */
  readonly crossingsMs: { readonly at15: number; readonly at6: number } | null;
  /** Between the quartiles of all its notes. */
  readonly spreadMs: number | null;
  readonly used: number;
  readonly rejected: number;
  /** Only where they differ by more than they scatter. The last has no condition. */
  readonly steps?: readonly MeasuredStep[];
  /** How long its notes last; as long as the key is held where `followsKey`. `rings` where a room or release is heard. */
  readonly length?: { readonly ms: number; readonly followsKey: boolean; readonly rings: boolean };
  /** Keys that gave no sound, as MIDI notes. */
  readonly silentKeys: readonly number[];
}

export interface ControllerLevel {
  readonly controller: number;
  readonly value: number;
  /** Mean over articulations and pitches. Unit: LUFS. */
  readonly dB: number;
}

export interface VelocityLevel {
  readonly articulation: string;
  readonly velocity: number;
  /** Mean over pitches. Unit: LUFS. */
  readonly dB: number;
}

/** The controller value that a mark comes to. */
export interface MarkValue {
  readonly mark: string;
  readonly value: number;
  /** What the value gives. Unit: LUFS. */
  readonly dB: number;
  /** Whether the library goes so far; else the value is the nearest that it has. */
  readonly isReached: boolean;
}

/** Two articulations that sound alike. */
export interface Alike {
  readonly articulations: readonly [string, string];
  /** Mean difference of octave bands. Unit: dB. */
  readonly dB: number;
}

/** Something that the result is not to be trusted in, or that has to be known to read it. */
export interface Doubt {
  /** An articulation, or what part of the result is meant. */
  readonly about: string;
  readonly text: string;
}

/** Everything that a bounce told, as it is printed with --json. */
export interface MeasureResult {
  readonly format: 'keyslip-measure/1';
  readonly bounce: {
    readonly sampleRate: number;
    readonly bits: number;
    readonly encoding: 'integer' | 'float';
    /** When bar 1 begins. Unit: seconds from the beginning of the file. */
    readonly startSeconds: number;
    /** How far the bounce runs slow. Unit: parts in a million. */
    readonly driftPpm: number;
    readonly clicks: 'both' | 'start' | 'none';
    /** Loudness of what is there where nothing is played; null for digital silence. Unit: LUFS. */
    readonly noise: number | null;
    readonly plan: { readonly quick: boolean; readonly room: boolean };
  };
  readonly articulations: Readonly<Record<string, MeasuredArticulation>>;
  readonly levels: readonly ControllerLevel[];
  readonly velocities: readonly VelocityLevel[];
  /** Marks from pp to ff; empty where the controller does nothing, or the map names none. */
  readonly marks: readonly MarkValue[];
  /** Loudness at mf; null where nothing was loud enough. Unit: LUFS. */
  readonly referenceLevel: number | null;
  /** −1 left … 1 right. */
  readonly seat: number | null;
  /** 0 a point … 1 all of the stage. */
  readonly width: number | null;
  /** What controller 10 does: how much louder the right side is than the left. Unit: dB. */
  readonly pan: readonly { readonly value: number; readonly dB: number }[];
  readonly alike: readonly Alike[];
  readonly doubts: readonly Doubt[];
}
