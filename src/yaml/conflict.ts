import { type Diagnostic, diagnostic, type Place, quoted } from '../diagnostics/index.js';

/** A line that git puts between the versions of a merge (git-merge, "How conflicts are presented"), and what it says behind. */
const marker = /^(<{7}|\|{7}|={7}|>{7})(?: (.*))?$/u;

interface Marker {
  /** Counted from 1. */
  readonly line: number;
  readonly sign: string;
  /** What git names the version by; '' for none. */
  readonly label: string;
}

/**
 * What a merge left undone in a text, once for each place (merge-conflict). None of git's lines can stand in a map: they
 * begin in the first column, where only keys do.
 */
export function mergeConflicts(text: string, file: string): readonly Diagnostic[] {
  if (!/^(?:<{7}|\|{7}|={7}|>{7})/mu.test(text)) return [];
  const groups: Marker[][] = [];
  text.split('\n').forEach((content, index) => {
    const [, sign, label = ''] = marker.exec(content) ?? [];
    if (sign === undefined) return;
    const last = groups.at(-1);
    const isNew = !last || sign.startsWith('<') || last.at(-1)?.sign.startsWith('>');
    const found = { line: index + 1, sign, label };
    if (isNew) groups.push([found]);
    else last.push(found);
  });
  return groups.map((markers) => conflict(markers, file));
}

function conflict(markers: readonly Marker[], file: string): Diagnostic {
  const of = (sign: string) => markers.find((one) => one.sign.startsWith(sign));
  const [ours, middle, theirs] = [of('<'), of('='), of('>')];
  const place: Place = { kind: 'text', file, line: markers[0]?.line ?? 1, column: 1 };
  const isWhole = ours && middle && theirs;
  const message = isWhole
    ? `a merge was left unfinished here: to line ${middle.line - 1} stands what ${version(ours)} has, to line ${theirs.line - 1} what ${version(theirs)} has`
    : 'a line that git put here in a merge was left behind';
  const hint = isWhole
    ? 'keep what is right of both, and take the lines of <<<<<<<, ======= and >>>>>>> out'
    : `take the line of ${markers.map(({ sign }) => sign).join(', ')} out, and see that nothing stands twice`;
  return diagnostic('merge-conflict', place, message, hint);
}

function version({ label }: Marker): string {
  return label === '' ? 'one version' : quoted(label);
}
