import { type Diagnostic, isError, type Place } from '../../diagnostics/index.js';

/** What was found in one file that was looked at. */
export interface Looked {
  /** The file, as it was given. */
  readonly file: string;
  readonly diagnostics: readonly Diagnostic[];
}

/** What a command found, for whatever shows it. */
export interface Findings {
  readonly command: 'check' | 'compare';
  /** Of keyslip. */
  readonly version: string;
  readonly files: readonly Looked[];
  /** Whether warnings count as errors. */
  readonly isStrict: boolean;
}

/** Whether something makes the command's status 1: an error, a change, or with --strict a warning. */
export function counts(one: Diagnostic, { isStrict }: Pick<Findings, 'isStrict'>): boolean {
  return isError(one) || isStrict || one.code === 'changed-articulation';
}

/** The path of a file below the folder that the command was run in: that of a version (`HEAD~1:maps/a.yaml`) without the revision. */
export function pathIn(file: string): string {
  const path = /^(?![A-Za-z]:[\\/])[^/\\]*:(.+)$/u.exec(file)?.[1] ?? file;
  return path.replace(/^\.\//u, '');
}

/** A place in words behind its file: `track 2 "Horns", bar 3 beat 1`; '' where it is a line, or the file. */
export function placeBehindFile(place: Place): string {
  if (place.kind === 'bytes') return `byte ${place.offset}`;
  if (place.kind !== 'music') return '';
  const name = place.trackName === '' ? '' : ` "${place.trackName}"`;
  const where = place.bar === null ? `tick ${place.tick}` : `bar ${place.bar} beat ${place.beat}`;
  return `track ${place.track}${name}, ${where}`;
}

/** The message with what would be right, in one text; a place that the format cannot say stands before it. */
export function wholeMessage({ place, message, hint }: Diagnostic): string {
  const where = placeBehindFile(place);
  return `${where === '' ? '' : `${where}: `}${message}${hint === undefined ? '' : `\n${hint}`}`;
}

/** What is wrong with the command line or the repository stands in no file. */
const nowhere: readonly string[] = ['command-line', 'no-repository', 'unknown-revision', 'history-cut'];

/** Whether something stands in no file that a code host could show it beside. */
export function standsNowhere({ code, place }: Diagnostic): boolean {
  return place.file === '-' || place.file === '' || nowhere.includes(code);
}
