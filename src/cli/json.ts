import { type Diagnostic, diagnosticJson } from '../diagnostics/index.js';
import type { Io } from './io.js';
import { jsonPieces } from './json-pieces.js';

/** What JSON leaves raw and a terminal might obey: C1 controls, marks of writing direction, separators; as UTF-16 units. */
const unsafe = /[\u007f-\u009f\u00ad\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\udb40-\udb43]/g;

/** A JSON document with the format that says what is in it: `keyslip schema report` has its shape. */
export function withFormat(value: object): object {
  return { format: 'keyslip-report/1', ...value };
}

/** Prints a JSON document of keyslip's own, which says its format. */
export function printJson(value: object, io: Io): void {
  printDocument(withFormat(value), io);
}

/** Prints any JSON document, so that no terminal obeys what is in it; see `jsonPieces` for long ones. */
export function printDocument(value: object, io: Io): void {
  for (const piece of jsonPieces(value)) io.out(piece.replace(unsafe, escaped));
}

function escaped(character: string): string {
  return `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`;
}

/** Diagnostics as they stand in JSON output. */
export function jsonOf(diagnostics: readonly Diagnostic[]): readonly unknown[] {
  return diagnostics.map(diagnosticJson);
}
