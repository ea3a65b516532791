import { basename } from 'node:path';

/** The title of a file that says none: its name without what tells its kind. */
export function titleOf(file: string): string {
  if (file === '-') return 'Untitled';
  return basename(file).replace(/(\.cue)?\.(ya?ml|midi?|musicxml|mxl|mei|xml)$/iu, '') || 'Untitled';
}
