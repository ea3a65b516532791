import type { Changes, Problem } from '../../desk/index.js';
import { type Diagnostic, escapeText, formatPlace } from '../../diagnostics/index.js';

/** A diagnostic as the page tells it: files are told from the folder of the cue. */
export function problemOf({ code, place, message, hint }: Diagnostic, folder: string): Problem {
  return {
    text: within(folder, `${formatPlace(place)}: ${escapeText(message)} [${code}]`),
    ...(hint === undefined ? {} : { hint: escapeText(hint) }),
  };
}

/** Changes whose reasons tell files from the folder of the cue. */
export function changesWithin(folder: string, changes: Changes): Changes {
  const list = changes.list.map((one) =>
    one.why === undefined ? one : { ...one, why: within(folder, one.why) },
  );
  return { ...changes, list };
}

function within(folder: string, text: string): string {
  return folder === '.' ? text : text.replaceAll(`${escapeText(folder)}/`, '');
}
