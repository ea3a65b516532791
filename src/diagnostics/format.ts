import type { Diagnostic, Place } from './diagnostic.js';
import { escapeText } from './escape.js';

/** How diagnostics are shown. */
export interface Style {
  readonly color: boolean;
}

/** `horns.yaml:12:7: error [unknown-key]: …`, and the hint on a line of its own. Safe to show on a terminal. */
export function formatDiagnostic(
  { code, severity, place, message, hint }: Diagnostic,
  { color }: Style = { color: false },
): string {
  const paint = (text: string) =>
    color ? `\u001b[${severity === 'error' ? 31 : 33}m${text}\u001b[0m` : text;
  const first = `${formatPlace(place)}: ${paint(severity)} [${code}]: ${escapeText(message)}`;
  return hint === undefined ? first : `${first}\n    ${escapeText(hint)}`;
}

/** A place in words: `horns.yaml:12:7`, `take.mid, track 2 "Horns", bar 12 beat 3 (tick 4567)`. */
export function formatPlace(place: Place): string {
  const file = place.file === '-' ? 'standard input' : escapeText(place.file);
  switch (place.kind) {
    case 'text':
      return `${file}:${place.line}:${place.column}`;
    case 'bytes':
      return `${file}, byte ${place.offset}`;
    case 'music': {
      const name = place.trackName === '' ? '' : ` "${escapeText(place.trackName)}"`;
      const bar =
        place.bar === null
          ? `tick ${place.tick}`
          : `bar ${place.bar} beat ${place.beat} (tick ${place.tick})`;
      return `${file}, track ${place.track}${name}, ${bar}`;
    }
    case 'file':
      return file;
  }
}

/** A diagnostic as it stands in JSON output: the place's fields beside the others. */
export function diagnosticJson({ place, ...rest }: Diagnostic): Readonly<Record<string, unknown>> {
  const { kind: _, ...where } = place;
  return { ...rest, ...where };
}
