import {
  type Diagnostic,
  type DiagnosticCode,
  diagnostic,
  isError,
  type Place,
} from '../diagnostics/index.js';

/** A place in a score's text; line and column count from 1. */
export interface Spot {
  readonly line: number;
  readonly column: number;
}

/** Where the readers of one file put what they find. */
export interface Findings {
  error(code: DiagnosticCode, spot: Spot | undefined, message: string, hint?: string): void;
  warning(code: DiagnosticCode, spot: Spot | undefined, message: string, hint?: string): void;
  readonly all: readonly Diagnostic[];
  readonly hasErrors: boolean;
}

/** More of one code than this are counted, not listed: a damaged file can hold a million of the same. */
const mostOfOneCode = 50;

/** @param file the file's name, for messages; a file inside a compressed score is named behind it */
export function findings(file: string): Findings {
  const all: Diagnostic[] = [];
  const counts = new Map<DiagnosticCode, number>();
  const add =
    (severity: Diagnostic['severity']) =>
    (code: DiagnosticCode, spot: Spot | undefined, message: string, hint?: string) => {
      const count = (counts.get(code) ?? 0) + 1;
      counts.set(code, count);
      if (count > mostOfOneCode) return;
      const place: Place = spot
        ? { kind: 'text', file, line: spot.line, column: spot.column }
        : { kind: 'file', file };
      // Some of what means nothing in a score can be passed over, and some cannot.
      all.push({ ...diagnostic(code, place, message, hint), severity });
    };
  return {
    error: add('error'),
    warning: add('warning'),
    all,
    get hasErrors() {
      return all.some(isError);
    },
  };
}
