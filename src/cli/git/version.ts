import { existsSync } from 'node:fs';
import { type Diagnostic, diagnostic, nearest, type Outcome } from '../../diagnostics/index.js';
import { type ArticulationMap, type Bases, readMap } from '../../map/index.js';
import { chainOf, textOf } from '../bases.js';
import { type CommonOptions, limits, loadMap } from '../context.js';
import type { Io } from '../io.js';
import { git, type Problem } from './run.js';

/**
 * Reads and checks a map file, or a version of one that git keeps, written as git writes it: `HEAD~1:maps/horns.yaml`
 * from the top of the repository, `HEAD~1:./horns.yaml` from the current folder, `:maps/horns.yaml` as it is staged. A
 * file of that very name comes first. Errors: cannot-read, merge-conflict, and those of maps.
 */
export async function loadMapVersion(
  text: string,
  options: CommonOptions,
  io: Io,
): Promise<Outcome<ArticulationMap>> {
  if (!isVersion(text)) return loadMap(text, options, io);
  const maxBytes = options.maxMap ?? limits.map;
  const { value: bytes, diagnostics } = await readVersion(text, maxBytes);
  if (!bytes) return { value: undefined, diagnostics };
  return readMap(bytes, text, { maxBytes, bases: await basesOfVersion(bytes, text, maxBytes) });
}

/** The bytes of a file in a version that git keeps: one more than the limit, so that a file over it can be told from one at it. */
export async function readVersion(text: string, maxBytes: number): Promise<Outcome<Uint8Array>> {
  const { bytes, problem } = await git(['cat-file', 'blob', text], maxBytes + 1);
  if (problem === undefined) return { value: bytes, diagnostics: [] };
  return { value: undefined, diagnostics: [await unreadable(text, problem)] };
}

/** What lends to a map, taken from the same version. */
export function basesOfVersion(bytes: Uint8Array, text: string, maxBytes: number): Promise<Bases> {
  const folder = text.slice(0, Math.max(text.lastIndexOf('/'), text.indexOf(':')) + 1);
  return chainOf(bytes, folder, async (path) => {
    const found = await git(['cat-file', 'blob', `${folder}${path}`], maxBytes + 1);
    if (found.problem) return { code: 'cannot-read', problem: found.problem.message };
    return textOf({ value: found.bytes, diagnostics: [] }, maxBytes);
  });
}

/** Whether a name is of a version. Nothing that begins with a hyphen is handed to git, which would take it for an option. */
export function isVersion(text: string): boolean {
  return text.includes(':') && !text.startsWith('-') && !existsSync(text);
}

async function unreadable(text: string, { message, hint }: Problem): Promise<Diagnostic> {
  if (message.includes('is in the index, but not at stage 0'))
    return diagnostic(
      'merge-conflict',
      { kind: 'file', file: text },
      'git has both versions of a merge staged, and none that is settled',
      'settle the merge in the file, and stage it (git add)',
    );
  const near = await neighbour(text);
  const helps = near === undefined ? hint : `did you mean "${near}"?`;
  return diagnostic(
    'cannot-read',
    { kind: 'file', file: text },
    `cannot be read: there is no such file, and ${message}`,
    helps,
  );
}

/** How much is read of the names of a revision's files, of which the nearest is found. Unit: bytes. */
const maxNames = 1 << 20;

/** A file of the same revision with nearly that path. */
async function neighbour(text: string): Promise<string | undefined> {
  const at = text.indexOf(':');
  const [revision, path] = [text.slice(0, at), text.slice(at + 1)];
  if (revision === '' || path.startsWith('.')) return undefined;
  const { bytes } = await git(['ls-tree', '-r', '-z', '--full-tree', '--name-only', revision], maxNames);
  const paths = new TextDecoder()
    .decode(bytes)
    .split('\0')
    .filter((name) => /\.ya?ml$/u.test(name));
  const near = nearest(path, paths.slice(0, 1000));
  return near === undefined ? undefined : `${revision}:${near}`;
}
