import type { Problem } from '../../desk/index.js';
import { type Diagnostic, escapeText, formatPlace } from '../../diagnostics/index.js';

/** A diagnostic as the page tells it. */
export function problemOf({ code, severity, place, message, hint }: Diagnostic): Problem {
  return {
    severity,
    text: `${formatPlace(place)}: ${escapeText(message)} [${code}]`,
    ...(hint === undefined ? {} : { hint: escapeText(hint) }),
  };
}
