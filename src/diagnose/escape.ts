/**
 * Characters that a terminal or a page might obey instead of showing: C0 and C1 controls and DEL, marks of writing
 * direction, joiners and other invisible characters, line and paragraph separators, tags, and halves of surrogate pairs.
 */
const unsafe =
  /[\u0000-\u001f\u007f-\u009f\u00ad\u061c\u115f\u180e\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb\u{e0000}-\u{e007f}]|[\ud800-\udfff]/gu;

/** A text from a file or the command line, made safe to show: what is not to be obeyed is spelled `\u{1b}`. */
export function escapeText(text: string): string {
  return text.replace(unsafe, (character) => `\\u{${(character.codePointAt(0) ?? 0).toString(16)}}`);
}
