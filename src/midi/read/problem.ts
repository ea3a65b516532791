import { type Diagnostic, type DiagnosticCode, diagnostic, type Severity } from '../../diagnostics/index.js';

/**
 * Something wrong in a MIDI file, before it is known which file it is. How grave a code is depends on where it is
 * found: a file that is cut off inside an event lacks music, one behind its last event does not.
 */
export interface Problem {
  readonly code: DiagnosticCode;
  readonly severity: Severity;
  /** The byte (from 0) at which it was found; absent where the file as a whole is meant. */
  readonly offset?: number;
  readonly message: string;
  readonly hint: string;
}

/** An error at a byte of the file. */
export function errorAt(offset: number, code: DiagnosticCode, message: string, hint: string): Problem {
  return { code, severity: 'error', offset, message, hint };
}

/** A warning at a byte of the file. */
export function warningAt(offset: number, code: DiagnosticCode, message: string, hint: string): Problem {
  return { code, severity: 'warning', offset, message, hint };
}

/** The same, as it is reported. */
export function diagnosticOf({ code, severity, offset, message, hint }: Problem, file: string): Diagnostic {
  const place =
    offset === undefined ? ({ kind: 'file', file } as const) : ({ kind: 'bytes', file, offset } as const);
  return { ...diagnostic(code, place, message, hint), severity };
}

/** A byte as manuals print it: `0x9F`. */
export function hex(byte: number): string {
  return `0x${byte.toString(16).toUpperCase().padStart(2, '0')}`;
}
