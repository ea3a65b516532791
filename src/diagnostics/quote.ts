const longest = 80;

/** A text from a file or the command line, in quotation marks, cut where it is long. Not escaped: that is done when it is shown. */
export function quoted(text: string): string {
  const characters = [...text.slice(0, 2 * longest)];
  return characters.length > longest ? `"${characters.slice(0, longest - 1).join('')}…"` : `"${text}"`;
}
