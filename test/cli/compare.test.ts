import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { keyslip, scratchFolder } from '../support/cli.js';
import { commitAll } from '../support/git.js';
import { bytesOf, trackOf } from '../support/song.js';

const horns = readFileSync('maps/saltmarsh-horns.yaml', 'utf8');
const boundAt = (ms: number) => horns.replace('below: 160ms', `below: ${ms}ms`);

/** A repository of one map, whose last commit is another version than the one before and the file. */
function repository(): string {
  const folder = scratchFolder();
  mkdirSync(join(folder, 'maps'));
  cpSync('maps/demo/last-boat.mid', join(folder, 'boat.mid'));
  writeFileSync(join(folder, 'maps/horns.yaml'), horns);
  commitAll(folder);
  writeFileSync(join(folder, 'maps/horns.yaml'), boundAt(110));
  commitAll(folder);
  writeFileSync(join(folder, 'maps/horns.yaml'), horns);
  return folder;
}

const cwd = repository();
writeFileSync(join(cwd, 'a.yaml'), horns);
writeFileSync(join(cwd, 'b.yaml'), boundAt(110));
const compare = (...words: readonly string[]) => keyslip(['compare', ...words], { cwd });

interface Compared {
  readonly notes: number;
  readonly changes: number;
  readonly parts: readonly { readonly changed: readonly { readonly bar: number; readonly tick: number }[] }[];
}

describe('keyslip compare', () => {
  it('says in one line that nothing changes, and is status 0', () => {
    const { status, out, err } = compare('a.yaml', 'a.yaml', 'boat.mid');
    expect({ status, out, err }).toEqual({
      status: 0,
      out: 'No articulation changes in 38 notes compared.\n',
      err: '',
    });
    expect(compare('a.yaml', 'a.yaml', 'boat.mid', '--quiet').out).toBe('');
  });

  it('tells the notes whose length lies between two bounds, and is status 1', () => {
    // `keyslip explain` of this recording: six notes of bar 3 are held 123.6 to 137.2 ms, none else 110 to 160 ms.
    const { status, out, err } = compare('a.yaml', 'b.yaml', 'boat.mid');
    expect([status, err]).toEqual([1, '']);
    expect(out.split('\n')).toEqual([
      'boat.mid, track 2 "Horns", channel 1: 7 of 38 notes change articulation',
      '  bar 2: staccato-2 → staccato-3, G2 at 2.1',
      '      a.yaml:76: held 104.6 ms (below 160ms)',
      '    → b.yaml:78: kept with the 8 onsets after it; held 104.6 ms, near 110 ms, for which b.yaml:76 alone would give staccato-2',
      '  bar 3: staccato-2 → staccato-3, 6 notes, the first D2 at 3.1',
      '      a.yaml:76: held 130.4 ms (below 160ms)',
      '    → b.yaml:78: held 130.4 ms (below 260ms)',
      '',
    ]);
    // No note is held 150 to 160 ms, nor so near that steadiness would tell.
    writeFileSync(join(cwd, 'c.yaml'), boundAt(150));
    expect(compare('a.yaml', 'c.yaml', 'boat.mid').status).toBe(0);
  });

  it('prints the changes as JSON', () => {
    const { status, out } = compare('a.yaml', 'b.yaml', 'boat.mid', 'boat.mid', '--json');
    const { notes, changes, parts } = JSON.parse(out) as Compared;
    expect([status, notes, changes]).toEqual([1, 76, 14]);
    expect(parts.map(({ changed }) => changed.map(({ bar }) => bar))).toEqual([
      [2, 3, 3, 3, 3, 3, 3],
      [2, 3, 3, 3, 3, 3, 3],
    ]);
    expect(parts[0]?.changed[1]).toMatchObject({
      pitch: 50,
      from: { articulation: 'staccato-2', rule: 5, reason: 'a.yaml:76: held 130.4 ms (below 160ms)' },
      to: { articulation: 'staccato-3', rule: 6 },
    });
    expect(compare('a.yaml', 'b.yaml', 'boat.mid', 'boat.mid', '--json').out).toBe(out);
  });

  it('plays the examples of the maps where no recording is named', () => {
    expect(compare('a.yaml', 'a.yaml')).toMatchObject({
      status: 0,
      out: 'No articulation changes in 9 notes compared.\n',
    });
    writeFileSync(join(cwd, 'd.yaml'), boundAt(130));
    const { status, out } = compare('a.yaml', 'd.yaml');
    expect(status).toBe(1);
    expect(out).toContain('d.yaml:91:5, example 1: 1 of 5 notes changes articulation\n');
    expect(out).toContain('  note 2: staccato-2 → staccato-3, D2\n');
  });

  it('tells of other switches without counting them', () => {
    writeFileSync(join(cwd, 'e.yaml'), horns.replace('note: C-2', 'note: A-2'));
    const { status, out } = compare('a.yaml', 'e.yaml', 'boat.mid');
    expect(status).toBe(0);
    expect(out).toContain('staccato-1: note C-2 (0) → note A-2 (9)');
    expect(compare('a.yaml', 'e.yaml', 'boat.mid', '--quiet').out).toBe('');
  });

  it('reports the errors of all files at once, and is status 1', () => {
    writeFileSync(join(cwd, 'broken.yaml'), 'format: [');
    writeFileSync(join(cwd, 'no.mid'), 'no');
    const { status, out, err } = compare('broken.yaml', 'missing.yaml', 'no.mid');
    expect([status, out]).toEqual([1, '']);
    for (const one of ['broken.yaml:1', '[yaml-syntax]', 'missing.yaml: error [cannot-read]', '[not-midi]'])
      expect(err).toContain(one);
    const json: unknown = JSON.parse(compare('a.yaml', 'broken.yaml', 'no.mid', '--json').out);
    expect(json).toMatchObject({ a: 'a.yaml', b: 'broken.yaml', diagnostics: [{}, { code: 'not-midi' }] });
  });

  it('has nothing to compare without notes, which is status 1', () => {
    writeFileSync(join(cwd, 'silent.mid'), bytesOf([trackOf([])]));
    writeFileSync(join(cwd, 'bare.yaml'), horns.slice(0, horns.indexOf('examples:')));
    for (const words of [
      ['a.yaml', 'a.yaml', 'silent.mid'],
      ['bare.yaml', 'bare.yaml'],
    ]) {
      const { status, out, err } = compare(...words);
      expect([status, out]).toEqual([1, '']);
      expect(err).toContain('error [no-notes]');
    }
  });

  it('asks for the track where there are several, and says in which recording', () => {
    const line = [{ tick: 0, end: 150, pitch: 50 }];
    writeFileSync(join(cwd, 'two.mid'), bytesOf([trackOf(line, [], 'One'), trackOf(line, [], 'Two')]));
    const { status, err } = compare('a.yaml', 'b.yaml', 'boat.mid', 'two.mid');
    expect(status).toBe(2);
    expect(err).toContain('two.mid: several tracks have notes');
    const words = ['a.yaml', 'b.yaml', 'two.mid', '--track', 'Two', '--track', '2', '--json'];
    expect((JSON.parse(compare(...words).out) as Compared).parts).toHaveLength(1);
  });

  it('is status 2 for a wrong command line', () => {
    for (const words of [
      [],
      ['a.yaml'],
      ['a.yaml', 'b.yaml', '--track', 'Horns'],
      ['a.yaml', 'b.yaml', '--channel', '1'],
      ['-', '-', 'boat.mid'],
      ['a.yaml', 'b.yaml', 'boat.mid', '--map', 'a.yaml'],
      ['--output=x:y', 'a.yaml', 'boat.mid'],
    ])
      expect([words, compare(...words).status]).toEqual([words, 2]);
  });

  it('reads one of the files from standard input', () => {
    const { status, out } = keyslip(['compare', 'a.yaml', '-', 'boat.mid'], { cwd, input: boundAt(110) });
    expect(status).toBe(1);
    expect(out).toContain('7 of 38 notes');
  });

  it('lets warnings count with --strict, and hides them with --quiet', () => {
    const low = [{ tick: 0, end: 2000, pitch: 100 }];
    writeFileSync(join(cwd, 'high.mid'), bytesOf([trackOf(low)]));
    const { status, err } = compare('a.yaml', 'b.yaml', 'high.mid');
    expect(status).toBe(0);
    expect(err.match(/warning \[note-out-of-range\]/gu)).toHaveLength(1);
    expect(compare('a.yaml', 'b.yaml', 'high.mid', '--strict').status).toBe(1);
    expect(compare('a.yaml', 'b.yaml', 'high.mid', '--quiet').err).toBe('');
  });
});

describe('a version that git keeps', () => {
  it('is read from the top of the repository, from the current folder, or as it is staged', () => {
    for (const [version, status] of [
      ['HEAD:maps/horns.yaml', 1],
      ['HEAD~1:maps/horns.yaml', 0],
      ['HEAD:./maps/horns.yaml', 1],
      [':maps/horns.yaml', 1],
      ['HEAD^{/as it is}:maps/horns.yaml', 1],
    ] as const)
      expect([version, compare(version, 'maps/horns.yaml', 'boat.mid').status]).toEqual([version, status]);
    const inside = join(cwd, 'maps');
    const words = ['compare', 'horns.yaml', 'HEAD:./horns.yaml', '../boat.mid'];
    expect(keyslip(words, { cwd: inside }).out).toContain('    → HEAD:./horns.yaml:78: held 130.4 ms');
  });

  it('comes after a file of that very name', () => {
    writeFileSync(join(cwd, 'HEAD:a.yaml'), boundAt(110));
    expect(compare('HEAD:a.yaml', 'b.yaml', 'boat.mid').status).toBe(0);
  });

  it('is an error, in a few words, where there is none', () => {
    for (const [version, said] of [
      ['HEAD:maps/hornz.yaml', 'did you mean "HEAD:maps/horns.yaml"?'],
      ['nowhere:maps/horns.yaml', "invalid object name 'nowhere'"],
      ['HEAD:maps', 'in git it is no file'],
      [':/as it is', 'git says: '],
      ['HEAD:../../x.yaml', 'outside repository'],
    ] as const) {
      const { status, out, err } = compare(version, 'a.yaml', 'boat.mid');
      expect([version, status, out]).toEqual([version, 1, '']);
      expect(err).toContain(`${version}: error [cannot-read]`);
      expect(err).toContain(said);
      expect(err.trim().split('\n')).toHaveLength(2);
    }
  });

  it('is an error outside of a repository, and without git', () => {
    const outside = scratchFolder();
    writeFileSync(join(outside, 'a.yaml'), horns);
    const words = ['compare', 'HEAD:maps/horns.yaml', 'a.yaml'];
    const ran = keyslip(words, { cwd: outside, env: { GIT_CEILING_DIRECTORIES: outside } });
    expect([ran.status, ran.err.includes('git says: not a git repository')]).toEqual([1, true]);
    const without = keyslip(words, { cwd, env: { PATH: outside } });
    expect([without.status, without.err.includes('is not installed')]).toEqual([1, true]);
  });

  it('is never an option of git, nor anything to a shell', () => {
    const { status, err } = compare('--', '--output=x:y', '$(touch z):a.yaml', 'boat.mid');
    expect(status).toBe(1);
    expect(err).toContain(
      '--output=x:y: error [cannot-read]: cannot be read: there is no such file or folder',
    );
    const { status: untouched } = compare('a.yaml', 'a.yaml', 'z');
    expect(untouched).toBe(1);
  });

  it('is held to the limit of maps', () => {
    const { status, err } = compare('HEAD:maps/horns.yaml', 'a.yaml', '--max-map', '1');
    expect(status).toBe(1);
    expect(err.match(/error \[map-too-large\]/gu)).toHaveLength(2);
    const size = String(Buffer.byteLength(boundAt(110)) / 1024);
    expect(compare('HEAD:maps/horns.yaml', 'b.yaml', '--max-map', size).err).toBe('');
  });

  it('is the same whatever language git speaks, and shows no control characters', () => {
    const words = ['compare', 'HEAD:x\x1b[31m.yaml', 'a.yaml'];
    const { err } = keyslip(words, { cwd, env: { LANGUAGE: 'de', LANG: 'de_DE.UTF-8' } });
    expect(err).not.toContain('\x1b');
    expect(err).toContain('git says: path');
  });

  it('leaves the repository as it was', () => {
    const state = () => execFileSync('git', ['status', '--porcelain'], { cwd, encoding: 'utf8' });
    const before = state();
    compare('HEAD:maps/horns.yaml', 'a.yaml', 'boat.mid');
    expect(state()).toBe(before);
  });
});
