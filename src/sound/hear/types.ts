/**
 * What an articulation is heard by, as far as it differs from its part's plain sound. All that is absent is as in the
 * plain sound.
 */
export interface StandIn {
  /** General MIDI program on the wire, 0–127. */
  readonly program?: number;
  /** Whether the notes go to a drum kit, where keys are instruments. */
  readonly isKit?: boolean;
  /** All notes are struck on this key, 0–127. */
  readonly key?: number;
  /** How long a note sounds: a share of the time that it is held, and no longer than so many ms. */
  readonly length?: { readonly share?: number; readonly mostMs?: number };
  /** What velocities are multiplied by. */
  readonly velocityScale?: number;
  /** How the attack differs from the plain one: 64 is as it is, less is quicker, more is slower (controller 73). */
  readonly attack?: number;
}

/** One articulation of a part's library, as far as it matters to the ear. */
export interface HearArticulation {
  readonly name: string;
  /** Names of MusicXML 4.0 elements, playing words, or classes of M2-123 (`class/subclass`). */
  readonly means: readonly string[];
  /** What the library's notes of it take their loudness from. */
  readonly loudness?: 'velocity' | 'controller';
  /** What the map says it is to be heard by; it goes before everything that would be found. */
  readonly standIn?: StandIn;
}

/** One note, in real time. */
export interface HearNote {
  /** When the note is struck. */
  readonly onsetMs: number;
  /** When it is let go. */
  readonly endMs: number;
  /** Sounding, 0–127. */
  readonly pitch: number;
  /** 1–127. */
  readonly velocity: number;
  /** The name of an articulation of the part; plain where it is absent. */
  readonly articulation?: string;
  /** How long after the onset the library would be heard to begin (`speaks-after`). */
  readonly delayMs?: number;
}

/** A value that is sent to a controller at a time. */
export interface HearController {
  readonly ms: number;
  /** 0–127. */
  readonly controller: number;
  /** 0–127. */
  readonly value: number;
}

/** A pitch bend at a time: 0–16383, 8192 is none. */
export interface HearBend {
  readonly ms: number;
  readonly value: number;
}

/** One part as it is to be heard. */
export interface HearPart {
  readonly name: string;
  /** strings, woodwind, brass, percussion, keyboard, plucked, voice or other. */
  readonly family?: string;
  /** General MIDI program on the wire, where the music or the map names one. */
  readonly program?: number;
  /** Whether the music is for a drum kit (channel 10 of General MIDI). */
  readonly isKit?: boolean;
  /** How many play it; a section where it is absent. */
  readonly players?: number;
  readonly articulations: readonly HearArticulation[];
  /** The controller by which the library's dynamics are played: it is heard as a level. */
  readonly dynamicsController?: number;
  readonly notes: readonly HearNote[];
  readonly controllers: readonly HearController[];
  readonly bends?: readonly HearBend[];
}

/** A beat of the click. */
export interface HearClick {
  readonly ms: number;
  /** The first beat of a bar. */
  readonly isStrong: boolean;
}

/** What is heard of the parts. */
export interface HearOptions {
  /** 44100 or 48000. */
  readonly sampleRate: 44_100 | 48_000;
  /** Names of the parts that are heard; all where it is absent. */
  readonly parts?: readonly string[];
  /** Names of parts that are heard alone, out of the parts above. */
  readonly solo?: readonly string[];
  /** As it was played: every note in its part's plain sound, at once, by its own velocity. */
  readonly asPlayed?: boolean;
  readonly clicks?: readonly HearClick[];
  /** From when to when; notes that sound across the beginning are struck there. */
  readonly range?: { readonly fromMs: number; readonly toMs: number };
}

/** An articulation that is heard by its part's plain sound, since nothing stands in for it. */
export interface PlainArticulation {
  readonly part: string;
  readonly articulation: string;
  /** How many notes of it are heard so. */
  readonly notes: number;
}
