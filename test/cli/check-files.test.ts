import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { keyslip } from '../support/cli.js';
import { mapRepository, mergeInto, type Repository } from '../support/repository.js';

interface Told {
  readonly files: readonly {
    readonly file: string;
    readonly ok: boolean;
    readonly diagnostics: readonly { readonly code: string; readonly file: string; readonly line?: number }[];
  }[];
}

const check = ({ cwd }: Repository, ...words: readonly string[]) => {
  const { status, out } = keyslip(['check', ...words, '--json'], { cwd });
  const { files } = JSON.parse(out) as Told;
  return {
    status,
    files: files.map(({ file }) => file),
    codes: files.flatMap(({ diagnostics }) => diagnostics.map(({ code }) => code)),
    places: files.flatMap(({ diagnostics }) => diagnostics.map(({ file, line }) => `${file}:${line}`)),
  };
};

const maps = ['saltmarsh-horns', 'slate-quay-flutes', 'slate-quay-oboes'];

describe('keyslip check of folders and patterns', () => {
  const repository = mapRepository();

  it('takes the maps of a folder and below, and not what is no map, lends only, or is hidden', () => {
    repository.put('maps/ci/maps.yml', 'on: push\n');
    repository.put('maps/.hidden/broken.yaml', 'format: keyslip-map/1\n');
    repository.put('maps/node_modules/broken.yaml', 'format: keyslip-map/1\n');
    const files = maps.map((name) => `maps/${name}.yaml`);
    for (const words of [['maps'], ['maps/'], ['maps', 'maps/saltmarsh-horns.yaml']])
      expect(check(repository, ...words)).toEqual({ status: 0, files, codes: [], places: [] });
    expect(check(repository, './maps').files).toEqual(files.map((file) => `./${file}`));
    // A base that is asked for by its name is looked at by itself.
    expect(check(repository, 'maps/shared/slate-quay.yaml')).toMatchObject({ status: 1 });
  });

  it('expands patterns itself, and takes a file of that very name first', () => {
    expect(check(repository, 'maps/slate-*.yaml').files).toEqual([
      'maps/slate-quay-flutes.yaml',
      'maps/slate-quay-oboes.yaml',
    ]);
    expect(check(repository, '**/*.{yaml,yml}').files).toHaveLength(3);
    repository.put('[a].yaml', repository.git('show', 'HEAD:maps/saltmarsh-horns.yaml'));
    expect(check(repository, '[a].yaml')).toMatchObject({ status: 0, files: ['[a].yaml'] });
    rmSync(join(repository.cwd, '[a].yaml'));
  });

  it('says so where there is none', () => {
    for (const word of ['music', 'maps/*.yml', ':maps/*.yml', ':music/*'])
      expect([word, check(repository, word, 'maps/saltmarsh-horns.yaml')]).toEqual([
        word,
        {
          status: 1,
          files: [word, 'maps/saltmarsh-horns.yaml'],
          codes: ['no-files'],
          places: [`${word}:undefined`],
        },
      ]);
  });

  it('looks at a file with what a merge left in it', () => {
    repository.put('maps/other.yaml', '<<<<<<< HEAD\nformat: keyslip-map/1\n=======\n>>>>>>> x\n');
    expect(check(repository, 'maps')).toMatchObject({ status: 1, codes: ['merge-conflict'] });
    rmSync(join(repository.cwd, 'maps/other.yaml'));
  });
});

describe('keyslip check of what is staged', () => {
  const repository = mapRepository();

  it('reads files, folders and patterns from the index, and their bases too', () => {
    // What is staged is broken; what is in the folder is not.
    repository.edit('maps/shared/slate-quay.yaml', 'note-60: C3', 'note-60: C9');
    repository.git('add', 'maps/shared');
    repository.edit('maps/shared/slate-quay.yaml', 'note-60: C9', 'note-60: C3');
    expect(check(repository, 'maps').status).toBe(0);
    const flutes = check(repository, ':maps/slate-quay-flutes.yaml');
    expect(flutes).toMatchObject({ status: 1, codes: ['unknown-value'] });
    expect(flutes.places).toEqual([':maps/shared/slate-quay.yaml:7']);
    const staged = maps.map((name) => `:maps/${name}.yaml`);
    expect(check(repository, ':maps')).toMatchObject({ status: 1, files: staged });
    expect(check(repository, ':./maps').files).toEqual(staged);
    expect(check(repository, ':maps/salt*.yaml')).toMatchObject({ status: 0, files: [staged[0]] });
    const inside = keyslip(['check', ':./saltmarsh-horns.yaml'], { cwd: join(repository.cwd, 'maps') });
    expect([inside.status, inside.err]).toEqual([0, '']);
    repository.git('add', 'maps/shared');
    expect(check(repository, ':maps').status).toBe(0);
  });

  it('reads cues with what they name', () => {
    const cue = (map: string) =>
      `format: keyslip-cue/1\ntitle: Boat\nsource: music/saltmarsh-horns.mid\noutput: boat.parts.mid\nparts:\n  - name: Horns\n    track: Horns\n    map: maps/${map}.yaml\n`;
    repository.put('boat.cue.yaml', cue('saltmarsh-horns'));
    repository.git('add', 'boat.cue.yaml');
    expect(check(repository, ':boat.cue.yaml')).toMatchObject({ status: 0, codes: [] });
    repository.put('boat.cue.yaml', cue('horns'));
    repository.git('add', 'boat.cue.yaml');
    expect(check(repository, ':boat.cue.yaml')).toMatchObject({ status: 1, codes: ['cannot-read'] });
  });

  it('tells what is not there, and what is not merged', () => {
    expect(check(repository, ':maps/nowhere.yaml')).toMatchObject({ status: 1, codes: ['cannot-read'] });
    const open = mapRepository();
    open.git('checkout', '--quiet', '-b', 'other');
    open.edit('maps/saltmarsh-horns.yaml', 'below: 160ms', 'below: 150ms');
    open.commit();
    open.git('checkout', '--quiet', 'main');
    open.edit('maps/saltmarsh-horns.yaml', 'below: 160ms', 'below: 170ms');
    open.commit();
    mergeInto(open, 'other');
    expect(check(open, ':maps')).toMatchObject({ status: 1, codes: ['merge-conflict'] });
    expect(check(open, ':maps/saltmarsh-horns.yaml')).toMatchObject({ codes: ['merge-conflict'] });
  });
});
