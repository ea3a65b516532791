import { codes, type DiagnosticCode, type Severity } from './codes.js';

/**
 * Where a diagnostic points.
 * - `text`: a place in a YAML file; line and column count from 1.
 * - `bytes`: a byte offset (from 0) in a binary file.
 * - `music`: a tick (from 0) of a track (counted from 1); bar and beat count from 1 and are null where
 *   the file has no bars (SMPTE division).
 * - `file`: a file as a whole.
 */
export type Place =
  | { readonly kind: 'text'; readonly file: string; readonly line: number; readonly column: number }
  | { readonly kind: 'bytes'; readonly file: string; readonly offset: number }
  | {
      readonly kind: 'music';
      readonly file: string;
      readonly track: number;
      readonly trackName: string;
      readonly bar: number | null;
      readonly beat: number | null;
      readonly tick: number;
    }
  | { readonly kind: 'file'; readonly file: string };

/** One thing that is wrong: what was found, where, and what would be right. */
export interface Diagnostic {
  readonly code: DiagnosticCode;
  readonly severity: Severity;
  readonly place: Place;
  /** One sentence: what was found. May contain text from a file; escaped only when it is shown. */
  readonly message: string;
  /** What would be right, and the nearest valid name where there is one. */
  readonly hint?: string;
}

/** A diagnostic, as grave as its code is. */
export function diagnostic(code: DiagnosticCode, place: Place, message: string, hint?: string): Diagnostic {
  const { severity } = codes[code];
  return { code, severity, place, message, ...(hint === undefined ? {} : { hint }) };
}

export function isError({ severity }: Pick<Diagnostic, 'severity'>): boolean {
  return severity === 'error';
}

/** A value, or the reasons why there is none; warnings may stand beside a value. */
export interface Outcome<T> {
  readonly value: T | undefined;
  readonly diagnostics: readonly Diagnostic[];
}

/** A value with what was found on the way to it; no value where that makes it wrong. */
export function withErrors<T>(value: T | undefined, diagnostics: readonly Diagnostic[]): Outcome<T> {
  return { value: diagnostics.some(isError) ? undefined : value, diagnostics };
}
