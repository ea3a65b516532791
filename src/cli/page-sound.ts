import { type Diagnostic, diagnostic, type Outcome } from '../diagnostics/index.js';
import type { CommonOptions } from './context.js';

/** The options of a sheet that is to be heard. */
export interface SoundOptions extends CommonOptions {
  /** A WAV file, or true where the sound is to be rendered. */
  readonly sound: string | true;
  readonly bank?: string;
  /** The bar and beat at which the file begins. */
  readonly soundFrom?: string;
  readonly part: readonly string[];
  readonly at?: string;
}

/** A sound that went to a sink. Unit: ms. */
export interface PageSound {
  /** What of the music its first sample is. */
  readonly fromMs: number;
  readonly lengthMs: number;
  /** Where it is from, and what is not heard as it is meant; both escaped. */
  readonly from: string;
  readonly lines: readonly string[];
}

/** What of the music is wanted. Unit: ms. */
export type Range = { readonly fromMs: number; readonly toMs: number } | undefined;

/** A browser keeps a sound unfolded: an hour at 48 kHz is 1.4 GB. Unit: ms. */
const longest = 3_600_000;

/** Why a sound of that length is not put on a page; undefined where it is. */
export function tooLong(lengthMs: number, file: string): Diagnostic | undefined {
  if (lengthMs <= longest) return undefined;
  const minutes = Math.ceil(lengthMs / 60_000);
  return diagnostic(
    'sound-long',
    { kind: 'file', file },
    `${minutes} minutes of sound are more than a page is given: 60 are the most`,
    'show some bars of it: --at 1..200',
  );
}

/** There is no sound, and why. */
export function silent(...diagnostics: readonly Diagnostic[]): Outcome<never> {
  return { value: undefined, diagnostics };
}
