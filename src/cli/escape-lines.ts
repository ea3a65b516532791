import { escapeText } from '../diagnostics/index.js';

/** A text of several lines with everything else that a terminal might obey escaped. */
export function escapeLines(text: string): string {
  return text.split('\n').map(escapeText).join('\n');
}
