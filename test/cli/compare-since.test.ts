import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { keyslip, scratchFolder } from '../support/cli.js';
import {
  mapRepository,
  mergeInto,
  type Repository,
  repositoryAt,
  shallowClone,
} from '../support/repository.js';
import { bytesOf, trackOf } from '../support/song.js';

const since = ({ cwd }: Repository, ...words: readonly string[]) =>
  keyslip(['compare', '--since', ...words], { cwd });

interface Told {
  readonly base: string | null;
  readonly notes: number;
  readonly changes: number;
  readonly maps: readonly { readonly map: string; readonly state: string; readonly changes?: number }[];
  readonly diagnostics: readonly { readonly code: string; readonly hint?: string }[];
}

const told = (repository: Repository, ...words: readonly string[]) => {
  const { status, out } = since(repository, ...words, '--json');
  return { status, ...(JSON.parse(out) as Told) };
};

const clean = mapRepository();

/** A branch that changes the horns' bound, while `main` goes on with another change of them. */
function branched(): Repository {
  const repository = mapRepository();
  repository.git('checkout', '--quiet', '-b', 'shorter');
  repository.edit('maps/saltmarsh-horns.yaml', 'below: 160ms', 'below: 110ms');
  repository.commit('shorter');
  repository.git('checkout', '--quiet', 'main');
  repository.edit('maps/slate-quay-oboes.yaml', 'range: [', 'range: [ ');
  repository.edit('maps/saltmarsh-horns.yaml', 'below: 160ms', 'below: 300ms');
  repository.commit('main goes on');
  repository.git('checkout', '--quiet', 'shorter');
  return repository;
}

describe('keyslip compare --since', () => {
  it('says that nothing changed, and is status 0', () => {
    const { status, out, err } = since(clean, 'HEAD');
    expect([status, err]).toEqual([0, '']);
    expect(out).toMatch(
      /^0 of 3 maps changed since [0-9a-f]{10}, where this and HEAD went apart: 0 of 0 notes/u,
    );
    expect(since(clean, 'HEAD', '--quiet')).toMatchObject({ status: 0, out: '', err: '' });
  });

  it('compares with the merge base, not with the tip, in the recordings that the map plays', () => {
    const repository = branched();
    const { status, out, err } = since(repository, 'main');
    expect([status, err]).toEqual([1, '']);
    const base = repository.git('rev-parse', '--short=10', 'main~1').trim();
    expect(out.split('\n').slice(0, 3)).toEqual([
      `maps/saltmarsh-horns.yaml, against ${base}:maps/saltmarsh-horns.yaml:`,
      // As `keyslip compare` has it of this recording: six notes of bar 3 are held 123.6 to 137.2 ms.
      'music/saltmarsh-horns.mid, track 2 "Horns", channel 1: 6 of 38 notes change articulation',
      '  bar 3: staccato-2 → staccato-3, 6 notes, the first D2 at 3.1',
    ]);
    expect(out).toContain(`1 of 3 maps changed since ${base}, where this and main went apart: 6 of 38 notes`);
    // The same from a folder within, and with what is not committed.
    const inside = keyslip(['compare', '--since', 'main', '--music', '../music', '.'], {
      cwd: join(repository.cwd, 'maps'),
    });
    expect([inside.status, inside.err]).toEqual([1, '']);
    expect(inside.out).toContain(`saltmarsh-horns.yaml, against ${base}:maps/saltmarsh-horns.yaml:`);
    repository.edit('maps/saltmarsh-horns.yaml', 'below: 110ms', 'below: 160ms');
    expect(since(repository, 'main').status).toBe(0);
  });

  it('finds a map that changed by its base, and one that has another name', () => {
    const repository = mapRepository();
    repository.edit('maps/shared/slate-quay.yaml', 'below: 47%', 'below: 5%');
    repository.git('mv', 'maps/saltmarsh-horns.yaml', 'maps/horns.yaml');
    repository.git('mv', 'music/saltmarsh-horns.mid', 'music/horns.mid');
    const { maps } = told(repository, 'HEAD');
    expect(maps.map(({ map, state, changes }) => [map, state, changes])).toEqual([
      ['maps/horns.yaml', 'changed', 0],
      ['maps/slate-quay-flutes.yaml', 'changed', 3],
      // No recording is named after the oboes, so their examples are compared.
      ['maps/slate-quay-oboes.yaml', 'changed', expect.any(Number)],
    ]);
  });

  it('lets a cue say what a map plays', () => {
    const repository = mapRepository();
    repository.git('mv', 'music/saltmarsh-horns.mid', 'music/boat.mid');
    repository.put(
      'boat.cue.yaml',
      'format: keyslip-cue/1\ntitle: Boat\nsource: music/boat.mid\noutput: boat.parts.mid\nparts:\n  - name: Horns\n    track: Horns\n    map: maps/saltmarsh-horns.yaml\n',
    );
    repository.edit('maps/saltmarsh-horns.yaml', 'below: 160ms', 'below: 110ms');
    expect(told(repository, 'HEAD')).toMatchObject({ status: 1, notes: 38, changes: 6, diagnostics: [] });
    // Without the cue the recording is played by none, which is told.
    rmSync(join(repository.cwd, 'boat.cue.yaml'));
    const alone = told(repository, 'HEAD');
    expect(alone.diagnostics.map(({ code }) => code)).toEqual(['unplayed-recording']);
    expect(told(repository, 'HEAD', 'maps', '--strict', '--quiet').status).toBe(1);
  });

  it('has nothing to compare a new map with, nor one that is mended', () => {
    const repository = mapRepository();
    repository.put('maps/broken.yaml', 'format: keyslip-map/1\nlibrary: [');
    repository.commit('broken');
    repository.git('rm', '--quiet', '--cached', 'maps/broken.yaml');
    rmSync(join(repository.cwd, 'maps/broken.yaml'));
    repository.put('maps/broken.yaml', clean.git('show', 'HEAD:maps/saltmarsh-horns.yaml'));
    repository.put('maps/fresh.yaml', clean.git('show', 'HEAD:maps/saltmarsh-horns.yaml'));
    const { status, maps, diagnostics } = told(repository, 'HEAD');
    expect([status, diagnostics]).toEqual([0, []]);
    expect(maps).toEqual([
      { map: 'maps/broken.yaml', state: 'mended' },
      { map: 'maps/fresh.yaml', state: 'new' },
    ]);
  });

  it('fails where the change cannot be heard in anything', () => {
    const repository = mapRepository();
    rmSync(join(repository.cwd, 'music'), { recursive: true });
    const bare = 'maps/saltmarsh-horns.yaml';
    const text = clean.git('show', `HEAD:${bare}`);
    repository.put(bare, text.slice(0, text.indexOf('examples:')));
    repository.commit('no examples');
    repository.edit(bare, 'below: 160ms', 'below: 110ms');
    expect(told(repository, 'HEAD')).toMatchObject({ status: 1, diagnostics: [{ code: 'no-notes' }] });
    expect(told(repository, 'HEAD', '--music', 'songs').diagnostics[0]).toMatchObject({
      code: 'cannot-read',
    });
  });

  it('asks for a cue where a recording has several tracks', () => {
    const repository = mapRepository();
    const line = [{ tick: 0, end: 150, pitch: 50 }];
    repository.put('music/saltmarsh-horns.mid', bytesOf([trackOf(line, [], 'A'), trackOf(line, [], 'B')]));
    repository.edit('maps/saltmarsh-horns.yaml', 'below: 160ms', 'below: 110ms');
    expect(told(repository, 'HEAD')).toMatchObject({ status: 1, diagnostics: [{ code: 'several-tracks' }] });
  });
});

describe('what compare --since cannot know', () => {
  const repository = branched();

  it('is said of a shallow clone that does not reach the base', () => {
    const clone = shallowClone(repository, 1, 'shorter');
    expect(told(clone, 'origin/main')).toMatchObject({
      status: 1,
      base: null,
      maps: [],
      diagnostics: [{ code: 'unknown-revision', hint: expect.stringContaining('the clone is shallow') }],
    });
    clone.git('fetch', '--quiet', '--depth=1', 'origin', 'main:refs/remotes/origin/main');
    const { status, err } = since(clone, 'origin/main');
    expect(status).toBe(1);
    expect(err).toContain('error [history-cut]: the clone is shallow');
    expect(err).toContain('git fetch --unshallow');
    clone.git('fetch', '--quiet', '--unshallow', 'origin');
    expect(told(clone, 'origin/main')).toMatchObject({ status: 1, changes: 6, diagnostics: [] });
  });

  it('is known in a shallow clone that reaches it', () => {
    const clone = shallowClone(repository, 2, 'shorter');
    clone.git('fetch', '--quiet', '--depth=2', 'origin', 'main:refs/remotes/origin/main');
    expect(told(clone, 'origin/main')).toMatchObject({ status: 1, changes: 6, diagnostics: [] });
  });

  it('is said of a revision that there is not, and of what looks like an option', () => {
    for (const revision of ['nowhere', '--all', 'HEAD:maps', ''])
      expect([revision, told(repository, revision)]).toMatchObject([
        revision,
        { status: 1, diagnostics: [{ code: 'unknown-revision' }] },
      ]);
  });

  it('is said of histories without a common commit', () => {
    const other = branched();
    other.git('checkout', '--quiet', '--orphan', 'apart');
    other.commit('apart');
    expect(told(other, 'main')).toMatchObject({ status: 1, diagnostics: [{ code: 'history-cut' }] });
  });

  it('is said outside of a repository, and of maps outside of it', () => {
    const outside = repositoryAt(scratchFolder());
    outside.put('a.yaml', clean.git('show', 'HEAD:maps/saltmarsh-horns.yaml'));
    const env = { GIT_CEILING_DIRECTORIES: outside.cwd };
    const { status, err } = keyslip(['compare', '--since', 'HEAD'], { cwd: outside.cwd, env });
    expect([status, err.includes('error [no-repository]')]).toEqual([1, true]);
    expect(told(repository, 'HEAD', join(outside.cwd, 'a.yaml'))).toMatchObject({
      status: 1,
      diagnostics: [{ code: 'no-repository' }],
    });
  });

  it('is said of a merge that is not settled', () => {
    const open = branched();
    mergeInto(open, 'main');
    const { status, diagnostics } = told(open, 'main');
    expect([status, diagnostics.map(({ code }) => code)]).toEqual([1, ['merge-conflict']]);
    // The lines are gone, but git has not been told.
    open.put('maps/saltmarsh-horns.yaml', clean.git('show', 'HEAD:maps/saltmarsh-horns.yaml'));
    expect(told(open, 'main').diagnostics).toMatchObject([{ code: 'merge-conflict' }]);
    open.git('add', 'maps/saltmarsh-horns.yaml');
    expect(told(open, 'HEAD').diagnostics).toEqual([]);
  });

  it('is status 2 where the command line is wrong', () => {
    for (const words of [
      ['HEAD', '--track', 'Horns'],
      ['HEAD', '-'],
      ['HEAD', '--format', 'xml'],
    ])
      expect([words, since(repository, ...words).status]).toEqual([words, 2]);
    expect(keyslip(['compare', 'a.yaml', 'b.yaml', '--music', 'x']).status).toBe(2);
  });
});
