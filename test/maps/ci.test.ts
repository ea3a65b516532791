import { spawnSync } from 'node:child_process';
import { chmodSync, copyFileSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import {
  mapRepository,
  mergeInto,
  type Repository,
  shallowClone,
  withKeyslip,
} from '../support/repository.js';

interface Workflow {
  readonly jobs: {
    readonly maps: {
      readonly steps: readonly {
        readonly name?: string;
        readonly run?: string;
        readonly uses?: string;
        readonly with?: Readonly<Record<string, unknown>>;
      }[];
    };
  };
}

const { steps } = (parse(readFileSync('maps/ci/maps.yml', 'utf8')) as Workflow).jobs.maps;
const commands = steps.flatMap(({ run, name }) => (run && name !== 'Install keyslip' ? [run] : []));
const env = withKeyslip();

/** What the workflow's own commands say in a clone: each one's status, and its annotations without their messages. */
function work({ cwd }: Repository): readonly (readonly [status: number | null, ...told: string[]])[] {
  return commands.map((command) => {
    // As a runner has it for a step without a shell: bash -e (docs.github.com, "Workflow syntax", jobs.<id>.steps[*].shell).
    const { status, stdout, stderr } = spawnSync('bash', ['-e', '-c', command], {
      cwd,
      env: { ...env, GITHUB_BASE_REF: 'main' },
      encoding: 'utf8',
    });
    expect(stderr).toBe('');
    const told = stdout.split('\n').filter((line) => line !== '');
    return [status, ...told.map((line) => line.replace(/^(::\w+ .*?)::.*$/u, '$1'))];
  });
}

/** A repository whose branch `work` was changed, as a workflow that fetches everything clones it. */
function cloneOf(change: (repository: Repository) => void, depth = 1000): Repository {
  const repository = mapRepository();
  repository.git('checkout', '--quiet', '-b', 'work');
  change(repository);
  repository.commit('the change');
  const clone = shallowClone(repository, depth, 'work');
  if (depth > 1) clone.git('fetch', '--quiet', 'origin', 'main:refs/remotes/origin/main');
  return clone;
}

describe('the workflow for a repository of maps', () => {
  it('fetches all of the history, and runs two commands', () => {
    expect(steps[0]).toMatchObject({ uses: 'actions/checkout@v4', with: { 'fetch-depth': 0 } });
    expect(commands).toHaveLength(2);
  });

  it('passes a change that no note hears', () => {
    const clone = cloneOf(({ edit }) => edit('maps/saltmarsh-horns.yaml', 'lead: 25ms', 'lead: 24ms'));
    expect(work(clone)).toEqual([[0], [0]]);
  });

  it('tells what a change does to the recordings, at its line of the map', () => {
    const clone = cloneOf(({ edit }) => edit('maps/shared/slate-quay.yaml', 'below: 47%', 'below: 5%'));
    const [checked, compared] = work(clone);
    // The examples of the base say otherwise, and the flutes' recording changes; the oboes have none, but examples.
    expect(checked?.[0]).toBe(1);
    expect(compared?.[0]).toBe(1);
    expect(compared?.slice(1).every((line) => String(line).includes('changed-articulation'))).toBe(true);
    expect(compared?.[1]).toMatch(
      /^::warning file=maps\/shared\/slate-quay\.yaml,line=\d+,col=\d+,title=keyslip%3A changed-articulation$/u,
    );
    const horns = cloneOf(({ edit }) => edit('maps/saltmarsh-horns.yaml', 'below: 160ms', 'below: 140ms'));
    expect(work(horns)).toEqual([[0], [0]]);
  });

  it('fails where an example does, and where a warning is', () => {
    const clone = cloneOf(({ edit }) => edit('maps/saltmarsh-horns.yaml', 'below: 160ms', 'below: 110ms'));
    const [checked] = work(clone);
    expect(checked?.[0]).toBe(1);
    const failed =
      /^::error file=maps\/saltmarsh-horns\.yaml,line=\d+,col=\d+,title=keyslip%3A example-failed$/u;
    expect(checked?.slice(1)).toEqual([expect.stringMatching(failed)]);
  });

  it('fails in a clone that is too shallow to know', () => {
    const clone = cloneOf(({ edit }) => edit('maps/saltmarsh-horns.yaml', '160ms', '140ms'), 1);
    expect(work(clone)).toEqual([[0], [1, '::error title=keyslip%3A unknown-revision']]);
    clone.git('fetch', '--quiet', '--depth=1', 'origin', 'main:refs/remotes/origin/main');
    expect(work(clone)).toEqual([[0], [1, '::error title=keyslip%3A history-cut']]);
  });

  it('names a merge that is not settled, once', () => {
    const clone = cloneOf(({ edit }) => edit('maps/saltmarsh-horns.yaml', 'below: 160ms', 'below: 140ms'));
    clone.git('config', 'user.name', 'Test');
    clone.git('config', 'user.email', 'test@example.invalid');
    clone.git('checkout', '--quiet', '-b', 'other', 'origin/main');
    clone.edit('maps/saltmarsh-horns.yaml', 'below: 160ms', 'below: 150ms');
    clone.commit('other');
    clone.git('checkout', '--quiet', 'work');
    mergeInto(clone, 'other');
    const place =
      /^::error file=maps\/saltmarsh-horns\.yaml,line=\d+,col=1,title=keyslip%3A merge-conflict$/u;
    expect(work(clone)).toEqual([
      [1, expect.stringMatching(place)],
      [1, expect.stringMatching(place)],
    ]);
  });
});

describe('the hook before a commit', () => {
  const repository = mapRepository();
  const { cwd, git, edit, put } = repository;
  const hook = join(cwd, '.git/hooks/pre-commit');
  copyFileSync('maps/ci/pre-commit', hook);
  const commit = () =>
    spawnSync('git', ['commit', '--quiet', '--message', 'x'], { cwd, env, encoding: 'utf8' });

  it('can be run as it stands', () => {
    expect(statSync('maps/ci/pre-commit').mode & 0o111).not.toBe(0);
    chmodSync(hook, 0o755);
  });

  it('looks at what is staged, not at what is in the folder', () => {
    edit('maps/saltmarsh-horns.yaml', 'library: ', 'librarie: ');
    git('add', 'maps');
    edit('maps/saltmarsh-horns.yaml', 'librarie: ', 'library: ');
    const refused = commit();
    expect(refused.status).toBe(1);
    expect(refused.stderr).toContain(':maps/saltmarsh-horns.yaml:');
    git('add', 'maps');
    edit('maps/shared/slate-quay.yaml', 'lead: 25ms', 'lead: 24ms');
    git('add', 'maps');
    edit('maps/shared/slate-quay.yaml', 'lead: 24ms', 'lead: none');
    expect(commit()).toMatchObject({ status: 0 });
    git('checkout', '--quiet', 'maps');
  });

  it('catches a base that spoils the maps on it, and a mark of a merge', () => {
    edit('maps/shared/slate-quay.yaml', 'C-1', 'C-2');
    edit('maps/shared/slate-quay.yaml', 'D-1', 'C-2');
    git('add', 'maps');
    const { status, stderr } = commit();
    expect([status, stderr.includes('[same-switch]')]).toEqual([1, true]);
    git('reset', '--quiet', '--hard');
    edit('maps/saltmarsh-horns.yaml', 'family:', '>>>>>>> other\nfamily:');
    git('add', 'maps');
    expect(commit().stderr).toContain('error [merge-conflict]');
    git('reset', '--quiet', '--hard');
  });

  it('is silent where no map is touched', () => {
    put('notes.txt', 'x');
    git('add', 'notes.txt');
    expect(commit()).toMatchObject({ status: 0, stdout: '', stderr: '' });
  });
});
