import { realpathSync } from 'node:fs';
import { basename, dirname, join, posix, relative, resolve, sep } from 'node:path';
import { type Diagnostic, diagnostic, type Outcome, quoted } from '../../diagnostics/index.js';
import { git, gitList, gitText } from './run.js';

/** What changed in the work tree since it and another revision went apart. Paths are from the top of the repository. */
export interface Since {
  /** The commit that is compared with, short, as `REVISION:PATH` takes it. */
  readonly base: string;
  /** Every path that is other than in the base, or new, with the name that it had there; undefined for a new one. */
  readonly changed: ReadonlyMap<string, string | undefined>;
  /** Paths whose merge is not settled. */
  readonly unmerged: ReadonlySet<string>;
  /** A path from the current folder as one from the top; undefined where it leads out of the repository. */
  readonly pathInRepository: (file: string) => string | undefined;
}

/**
 * Finds the merge base of the current commit and a revision, and what changed since. Fails rather than guess: no-repository,
 * unknown-revision, history-cut (a shallow clone that does not reach the base; two histories without a common commit).
 */
export async function changedSince(revision: string): Promise<Outcome<Since>> {
  const top = await git(['rev-parse', '--show-toplevel'], 1 << 16);
  if (top.problem)
    return failed(
      'no-repository',
      revision,
      `what changed since ${quoted(revision)} cannot be told: ${top.problem.message}`,
      'run it inside the repository of the maps',
    );
  const isShallow = (await gitText('rev-parse', '--is-shallow-repository')) === 'true';
  const [other, head] = [await commitOf(revision), await commitOf('HEAD')];
  if (other === undefined || head === undefined) {
    const missing = other === undefined ? revision : 'HEAD';
    const hint = isShallow
      ? `the clone is shallow and may lack it: ${deepen}; then see that the name is right`
      : 'see what there is with git branch --all, or fetch it: git fetch origin';
    return failed('unknown-revision', revision, `the repository has no commit ${quoted(missing)}`, hint);
  }
  const base = await gitText('merge-base', other, head);
  if (base === undefined || base === '' || (isShallow && (await reachesTheCut(other, head, base)))) {
    const why = isShallow
      ? `the clone is shallow, and does not reach back to where this and ${quoted(revision)} went apart`
      : `this and ${quoted(revision)} have no commit in common`;
    return failed(
      'history-cut',
      revision,
      why,
      isShallow ? deepen : 'name a revision that this one comes from',
    );
  }
  const unmerged = await gitList('diff', '--name-only', '--diff-filter=U', '-z', '--no-ext-diff');
  const folder = new TextDecoder().decode(top.bytes).replace(/\n$/u, '');
  return {
    value: {
      base: (await gitText('rev-parse', '--short=10', base)) ?? base,
      changed: await changes(base),
      unmerged: new Set(unmerged),
      pathInRepository: (file) => pathFrom(folder, file),
    },
    diagnostics: [],
  };
}

const deepen = 'fetch all of it (git fetch --unshallow; in a workflow fetch-depth: 0)';

function failed(
  code: 'no-repository' | 'unknown-revision' | 'history-cut',
  revision: string,
  message: string,
  hint: string,
): Outcome<never> {
  const found: Diagnostic = diagnostic(code, { kind: 'file', file: revision }, message, hint);
  return { value: undefined, diagnostics: [found] };
}

/** The full name of a commit; whatever it begins with, it is no option to git. */
function commitOf(revision: string): Promise<string | undefined> {
  return gitText('rev-parse', '--verify', '--quiet', '--end-of-options', `${revision}^{commit}`);
}

/**
 * Whether the history is cut between two commits and what is found as their base: a nearer one may lie behind the cut.
 * Git tells a commit whose parents a shallow clone lacks as one without parents.
 */
async function reachesTheCut(one: string, other: string, base: string): Promise<boolean> {
  const cut = await gitText('rev-list', '--max-parents=0', one, other, `^${base}`);
  return cut !== undefined && cut !== '';
}

/** What is other in the work tree than in a commit, and what is new and not told to git yet. */
async function changes(base: string): Promise<Since['changed']> {
  const entries = await differences(base);
  const changed = new Map<string, string | undefined>();
  for (const { kind, path, before } of entries) {
    // An unmerged file has a second entry of its own, which does not make it new.
    if (kind === 'U') continue;
    changed.set(path, kind === 'A' ? undefined : before);
  }
  // Taken out of git, but perhaps still there.
  const gone = new Set(entries.filter(({ kind }) => kind === 'D').map(({ path }) => path));
  for (const path of await gitList('ls-files', '--others', '--full-name', '-z', '--', ':(top)'))
    changed.set(path, gone.has(path) ? path : undefined);
  return changed;
}

interface Difference {
  /** As git's --name-status has it: A added, D gone, M other content, R another name, U not merged, and more. */
  readonly kind: string;
  readonly path: string;
  /** Its name in the commit. */
  readonly before: string;
}

async function differences(base: string): Promise<readonly Difference[]> {
  const fields = await gitList('diff', '--name-status', '--find-renames', '-z', '--no-ext-diff', base);
  const found: Difference[] = [];
  for (let at = 0; at < fields.length; ) {
    const kind = fields[at]?.charAt(0) ?? '';
    const before = fields[at + 1] ?? '';
    const names = kind === 'R' || kind === 'C' ? 2 : 1;
    found.push({ kind, path: fields[at + names] ?? '', before });
    at += names + 1;
  }
  return found;
}

function pathFrom(top: string, file: string): string | undefined {
  // The folder's links are followed, as git does; the file's own are not, since git keeps links as links.
  const whole = join(realpathOf(dirname(resolve(file))), basename(file));
  const path = relative(realpathOf(top), whole);
  if (path === '' || path.startsWith('..') || resolve(path) === path) return undefined;
  return path.split(sep).join(posix.sep);
}

function realpathOf(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    return path;
  }
}
