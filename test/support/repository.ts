import { execFileSync, spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { program, scratchFolder } from './cli.js';
import { commitAll } from './git.js';
import { bytesOf, trackOf } from './song.js';

/** A repository of maps in a folder of its own. */
export interface Repository {
  readonly cwd: string;
  readonly git: (...words: readonly string[]) => string;
  readonly put: (file: string, content: string | Uint8Array) => void;
  readonly edit: (file: string, from: string, to: string) => void;
  readonly commit: (message?: string) => void;
}

/** What stands in a folder, with git at hand. */
export function repositoryAt(cwd: string): Repository {
  const put = (file: string, content: string | Uint8Array) => {
    mkdirSync(dirname(join(cwd, file)), { recursive: true });
    writeFileSync(join(cwd, file), content);
  };
  return {
    cwd,
    git: (...words) => execFileSync('git', words, { cwd, encoding: 'utf8', stdio: 'pipe' }),
    put,
    edit: (file, from, to) => {
      const text = readFileSync(join(cwd, file), 'utf8');
      if (!text.includes(from)) throw new Error(`${file} has no ${from}`);
      put(file, text.replace(from, to));
    },
    commit: (message) => commitAll(cwd, message),
  };
}

/**
 * A repository of three maps, two of them on a base, and two recordings: horns, which are told by how long notes are held,
 * and flutes. Its branch is `main`.
 */
export function mapRepository(): Repository {
  const repository = repositoryAt(scratchFolder());
  const { cwd, git, put, edit, commit } = repository;
  for (const name of ['saltmarsh-horns', 'slate-quay-flutes', 'slate-quay-oboes', 'shared/slate-quay'])
    cpSync(`maps/${name}.yaml`, join(cwd, `maps/${name}.yaml`), { recursive: true });
  // So that one bound is a matter of the rules alone.
  edit('maps/saltmarsh-horns.yaml', 'steadiness: 12%', 'steadiness: 0%');
  cpSync('maps/demo/last-boat.mid', join(cwd, 'music/saltmarsh-horns.mid'));
  const line = [0, 480, 960].map((tick) => ({ tick, end: tick + 90, pitch: 74 }));
  put('music/slate-quay-flutes/first-take.mid', bytesOf([trackOf(line, [], 'Flutes')]));
  git('init', '--quiet', '--initial-branch=main');
  commit('three maps');
  return repository;
}

/** A shallow clone of one, as a workflow makes it. */
export function shallowClone({ cwd }: Repository, depth: number, branch = 'main'): Repository {
  const to = join(scratchFolder(), 'clone');
  execFileSync('git', ['clone', '--quiet', `--depth=${depth}`, '--branch', branch, `file://${cwd}`, to]);
  return repositoryAt(to);
}

/** Merges a branch that changed the same line; git's status is 1, which is what conflicts are. */
export function mergeInto({ cwd }: Repository, branch: string): void {
  const { status } = spawnSync('git', ['merge', branch], { cwd });
  if (status !== 1) throw new Error('there was no conflict');
}

/** An environment in which `keyslip` is the built program. */
export function withKeyslip(): NodeJS.ProcessEnv {
  const bin = scratchFolder();
  symlinkSync(program, join(bin, 'keyslip'));
  return { ...process.env, PATH: `${bin}:${process.env.PATH}` };
}
