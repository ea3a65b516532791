/**
 * Characters that a terminal or a page might obey instead of showing: Unicode's controls, format characters (marks of
 * writing direction, joiners, tags), halves of surrogate pairs, line and paragraph separators; and letters and
 * selectors that nobody sees.
 */
const unsafe =
  /[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}\u{115f}\u{1160}\u{2065}\u{3164}\u{ffa0}\u{e0000}-\u{e0fff}]|\u{34f}|\u{17b4}|\u{17b5}|[\u{180b}-\u{180f}]/gu;

/** Printable ASCII, as most texts are: asking that first takes less than half of the time. */
const harmless = /^[ -~]*$/;

/** A text with what is not to be obeyed spelled in some way. */
export function spellUnsafe(text: string, spell: (codePoint: number) => string): string {
  if (harmless.test(text)) return text;
  return text.replace(unsafe, (character) => spell(character.codePointAt(0) ?? 0));
}

/** A text from a file or the command line, made safe to show: what is not to be obeyed is spelled `\u{1b}`. */
export function escapeText(text: string): string {
  return spellUnsafe(text, (codePoint) => `\\u{${codePoint.toString(16)}}`);
}

/** A text of several lines with everything else that is not to be obeyed escaped. */
export function escapeLines(text: string): string {
  return text.split('\n').map(escapeText).join('\n');
}
