import type { DiagnosticCode } from '../diagnostics/index.js';
import type { Meaning } from '../map/index.js';

/** What is to be written as a MIDI clip file: one sequence, all parts together. Ticks count from 0. */
export interface Clip {
  /** 1–65,535. */
  readonly ticksPerQuarter: number;
  /** In order of tick, with the first at 0; without one 120 quarters a minute hold. */
  readonly tempos: readonly { readonly tick: number; readonly microsecondsPerQuarter: number }[];
  /** In order of tick; the lower number is a power of two. Without one 4/4 holds. */
  readonly signatures: readonly {
    readonly tick: number;
    readonly numerator: number;
    readonly denominator: number;
  }[];
  /** In any order. */
  readonly parts: readonly ClipPart[];
  /** The clip is at least so long; longer where something stands behind it. */
  readonly endTick: number;
}

/** A part: the messages of one channel. No two parts have the same group and channel. */
export interface ClipPart {
  readonly name: string;
  /** 0–15. */
  readonly group: number;
  /** 0–15. */
  readonly channel: number;
  readonly notes: readonly ClipNote[];
  /** In order of tick; those on one tick keep their order. */
  readonly messages: readonly ClipMessage[];
}

/** A note, with values as MIDI 1.0 has them. */
export interface ClipNote {
  readonly tick: number;
  readonly endTick: number;
  /** 0–127. */
  readonly pitch: number;
  /** 1–127. */
  readonly velocity: number;
  /** 0–127; absent where none was played. */
  readonly releaseVelocity?: number;
  /** How it is played; absent where nothing is known of it. */
  readonly meaning?: Meaning;
}

/** What else a part says, with values as MIDI 1.0 has them. */
export type ClipMessage =
  | { readonly kind: 'controller'; readonly tick: number; readonly number: number; readonly value: number }
  | { readonly kind: 'program'; readonly tick: number; readonly program: number }
  /** 0–16,383; 8,192 is the middle. */
  | { readonly kind: 'bend'; readonly tick: number; readonly value: number }
  | { readonly kind: 'pressure'; readonly tick: number; readonly value: number }
  | { readonly kind: 'key pressure'; readonly tick: number; readonly pitch: number; readonly value: number }
  /** Its bytes between F0 and F7, each below 0x80. */
  | { readonly kind: 'sysex'; readonly tick: number; readonly data: readonly number[] };

/** Something that was not written as it stood. */
export interface ClipRemark {
  readonly code: Extract<
    DiagnosticCode,
    'clip-resolution' | 'clip-tempo' | 'clip-signature' | 'clip-channel' | 'clip-left-out'
  >;
  readonly message: string;
  readonly hint: string;
}

/** The file; undefined where it cannot be written. */
export interface WrittenClip {
  readonly bytes: Uint8Array | undefined;
  readonly diagnostics: readonly ClipRemark[];
}
