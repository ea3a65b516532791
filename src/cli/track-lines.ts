import { escapeText, plural } from '../diagnostics/index.js';

/** The tracks of a new file, a line each. */
export function trackLines(
  tracks: readonly { readonly name: string; readonly notes: number }[],
): readonly string[] {
  return tracks.map(({ name, notes }) => `"${escapeText(name)}": ${plural(notes, 'note')}`);
}
