import { escapeText } from '../../diagnostics/index.js';

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** A text from anywhere, made safe to stand in HTML, SVG, or a quoted attribute: it is shown, never obeyed. */
export function plain(text: string): string {
  return escapeText(text).replace(/[&<>"']/gu, (character) => entities[character] ?? '');
}

/** Data for the page's script, as JSON that cannot end the element it stands in. */
export function jsonMarkup(data: unknown): string {
  return JSON.stringify(data).replace(
    /[<>&\u2028\u2029]/gu,
    (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}

/** A number as it stands in SVG: whole units are fine enough. */
export function at(length: number): string {
  return String(Math.round(length));
}
