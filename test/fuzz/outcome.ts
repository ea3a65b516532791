import { readdirSync, readFileSync } from 'node:fs';
import type { Diagnostic, Outcome } from '../../src/diagnostics/diagnostic.js';
import { formatDiagnostic } from '../../src/diagnostics/format.js';
import { type Bases, readMap } from '../../src/map/read/index.js';
import type { ArticulationMap } from '../../src/map/types.js';

/** What cases begin from. */
export interface Seeds {
  readonly midi: readonly Uint8Array[];
  readonly maps: readonly string[];
}

/** What the seed maps name as their bases. */
const bases: Bases = {
  folder: 'maps/',
  texts: new Map(
    readdirSync('maps/shared').map((name) => [
      `shared/${name}`,
      new Uint8Array(readFileSync(`maps/shared/${name}`)),
    ]),
  ),
};

/** Reads a map, as one that lies in `maps/`. */
export function readFrom(text: string): Outcome<ArticulationMap> {
  return readMap(new TextEncoder().encode(text), 'maps/fuzz.yaml', { bases });
}

export function mapFrom(text: string): ArticulationMap {
  const { value } = readFrom(text);
  if (!value) throw new Error('a seed map has errors');
  return value;
}

/** A refusal must say why. */
export function refused(diagnostics: readonly Diagnostic[]): string {
  if (!diagnostics.some(({ severity }) => severity === 'error')) throw new Error('refused without an error');
  return 'refused';
}

export function shown(diagnostics: readonly Diagnostic[]): void {
  for (const one of diagnostics) clean(formatDiagnostic(one, { color: false }));
}

/** No stack trace, and no control characters but line breaks. */
export function clean(text: string): void {
  if (/^\s+at .+:\d+:\d+\)?$/mu.test(text)) throw new Error(`a stack trace is shown: ${text.slice(0, 300)}`);
  if (/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/u.test(text))
    throw new Error('a control character is shown');
}
