import { execFile } from 'node:child_process';
import { existsSync } from 'node:fs';
import { type Diagnostic, diagnostic, nearest, type Outcome } from '../diagnostics/index.js';
import { type ArticulationMap, readMap } from '../map/index.js';
import { chainOf, textOf } from './bases.js';
import { type CommonOptions, limits, loadMap } from './context.js';
import { fileProblem } from './files/problems.js';
import type { Io } from './io.js';

/**
 * Reads and checks a map file, or a version of one that git keeps, written as git writes it: `HEAD~1:maps/horns.yaml`
 * from the top of the repository, `HEAD~1:./horns.yaml` from the current folder, `:maps/horns.yaml` as it is staged. A
 * file of that very name comes first. Errors: cannot-read, and those of maps.
 */
export async function loadMapVersion(
  text: string,
  options: CommonOptions,
  io: Io,
): Promise<Outcome<ArticulationMap>> {
  if (!isRevision(text)) return loadMap(text, options, io);
  const maxBytes = options.maxMap ?? limits.map;
  // One byte more than the limit, so that a map over it can be told from one at it.
  const { bytes, problem } = await git(['cat-file', 'blob', text], maxBytes + 1);
  if (problem === undefined) {
    // What lends to it is taken from the same revision.
    const folder = text.slice(0, Math.max(text.lastIndexOf('/'), text.indexOf(':')) + 1);
    const bases = await chainOf(bytes, folder, async (path) => {
      const found = await git(['cat-file', 'blob', `${folder}${path}`], maxBytes + 1);
      if (found.problem) return { code: 'cannot-read', problem: found.problem.message };
      return textOf({ value: found.bytes, diagnostics: [] }, maxBytes);
    });
    return readMap(bytes, text, { maxBytes, bases });
  }
  return { value: undefined, diagnostics: [await unreadable(text, problem)] };
}

/** Nothing that begins with a hyphen is handed to git, which would take it for an option. */
function isRevision(text: string): boolean {
  return text.includes(':') && !text.startsWith('-') && !existsSync(text);
}

interface Answer {
  /** What git printed, up to the limit. */
  readonly bytes: Uint8Array;
  /** Why it printed nothing, or not all. */
  readonly problem?: Problem;
}

interface Problem {
  readonly message: string;
  /** What would be right. */
  readonly hint?: string;
}

/** Runs git, without a shell. Output over the limit is cut there. */
function git(words: readonly string[], limit: number): Promise<Answer> {
  const env = { ...process.env, LC_ALL: 'C', GIT_TERMINAL_PROMPT: '0' };
  return new Promise((resolve) => {
    execFile('git', words, { encoding: 'buffer', maxBuffer: limit, env }, (error, stdout, stderr) => {
      const isCut = error?.code === 'ERR_CHILD_PROCESS_STDIO_MAXBUFFER';
      const problem = error && !isCut ? { problem: problemOf(error, stderr.toString()) } : {};
      resolve({ bytes: new Uint8Array(stdout), ...problem });
    });
  });
}

/** Why git failed, in its own words where it has any. */
function problemOf(error: Error & { readonly code?: unknown }, said: string): Problem {
  if (error.code === 'ENOENT')
    return { message: 'git, which keeps versions, is not installed', hint: 'install git, or name a file' };
  if (typeof error.code === 'string') return { message: `git cannot be run: ${fileProblem(error)}` };
  const [, fatal = 'nothing of that name can be found'] = /^fatal: (.+)$/mu.exec(said) ?? [];
  const hint =
    'write a version as REVISION:PATH, with the path from the top of the repository, or as REVISION:./PATH from this folder';
  return { message: fatal.endsWith('bad file') ? 'in git it is no file' : `git says: ${fatal}`, hint };
}

async function unreadable(text: string, { message, hint }: Problem): Promise<Diagnostic> {
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
