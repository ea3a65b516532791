import { type Diagnostic, diagnostic, escapeText, plural } from '../diagnostics/index.js';
import type { Heard, HearProblem } from '../sound/index.js';

/** Why nothing is heard, as it is told. */
export function problemOf(
  { code, message, hint, offset }: HearProblem,
  bank: string,
  output: string,
): Diagnostic {
  const file = code.startsWith('bank-') ? bank : output;
  const place =
    offset === undefined ? ({ kind: 'file', file } as const) : ({ kind: 'bytes', file, offset } as const);
  return diagnostic(code, place, message, hint);
}

/** What is not heard as it is meant, in lines. */
export function otherwiseHeard({ plain, substitutes }: Pick<Heard, 'plain' | 'substitutes'>): string[] {
  return [
    ...plain.map(
      ({ part, articulation, notes }) =>
        `  ${escapeText(part)}: ${escapeText(articulation)} sounds plain (${plural(notes, 'note')})`,
    ),
    ...substitutes.map(
      ({ program, isKit, heard }) =>
        `  the bank has no ${isKit ? 'drum kit' : `program ${program}`}: ${escapeText(heard)} is heard in its place`,
    ),
  ];
}

/** Minutes and seconds. */
export function lengthText(seconds: number): string {
  const whole = Math.round(seconds);
  return `${Math.floor(whole / 60)}:${`${whole % 60}`.padStart(2, '0')}`;
}
