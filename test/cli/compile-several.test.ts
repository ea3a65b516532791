import {
  existsSync,
  linkSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { reportSchema } from '../../src/report/index.js';
import { scratchFolder } from '../support/cli.js';
import { runHere } from '../support/in-process.js';
import { validatorOf } from '../support/schema.js';
import { bytesOf, trackOf } from '../support/song.js';

const scratch = scratchFolder();
const map = join(scratch, 'horns.yaml');
writeFileSync(map, readFileSync('maps/saltmarsh-horns.yaml'));
const take = (pitch: number, name = 'Horns') => trackOf([{ tick: 480, end: 700, pitch }], [], name);

/** A folder with two takes and a folder for results. */
function fresh() {
  const folder = mkdtempSync(join(scratch, 'case-'));
  const at = (name: string) => join(folder, name);
  mkdirSync(at('out'));
  writeFileSync(at('a.mid'), bytesOf([take(50)]));
  writeFileSync(at('b.mid'), bytesOf([take(52)]));
  const compile = (...words: readonly string[]) =>
    runHere(['compile', ...words.map((word) => (/^(-|\d)/u.test(word) ? word : at(word))), '--map', map]);
  return { folder, at, compile };
}

describe('several recordings in one command', () => {
  it('go into a folder under their own names, with the bytes that each has alone', async () => {
    const { at, compile } = fresh();
    const { status, out, err } = await compile('a.mid', 'b.mid', '-o', 'out/');
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toContain(`${at('a.mid')} → ${at('out/a.mid')}`);
    expect(readdirSync(at('out'))).toEqual(['a.mid', 'b.mid']);
    for (const name of ['a.mid', 'b.mid']) {
      expect((await compile(name, '-o', 'alone.mid')).status).toBe(0);
      expect(readFileSync(at(`out/${name}`))).toEqual(readFileSync(at('alone.mid')));
    }
  });

  it('have a report each, in a folder', async () => {
    const { at, compile } = fresh();
    expect((await compile('a.mid', 'b.mid', '-o', 'out', '--report', 'out')).status).toBe(0);
    expect(readdirSync(at('out'))).toEqual(['a.json', 'a.mid', 'b.json', 'b.mid']);
    const report: unknown = JSON.parse(readFileSync(at('out/b.json'), 'utf8'));
    expect(report).toMatchObject({ format: 'keyslip-report/1', input: at('b.mid'), map });
  });

  it('are told in JSON by the published schema, also where one fails', async () => {
    const { at, compile } = fresh();
    const errorsOf = validatorOf(reportSchema());
    const done: unknown = JSON.parse((await compile('a.mid', 'b.mid', '-o', 'out/', '--json')).out);
    expect(errorsOf(done)).toEqual([]);
    expect(done).toMatchObject({
      results: [{ input: at('a.mid') }, { output: at('out/b.mid') }],
      diagnostics: [],
    });
    const failed: unknown = JSON.parse((await compile('a.mid', 'c.mid', '-o', 'out/', '--json')).out);
    expect(errorsOf(failed)).toEqual([]);
    expect(failed).toMatchObject({ diagnostics: [{ code: 'cannot-read', file: at('c.mid') }] });
  });

  it('are all written or none: every error of every one is told', async () => {
    const { at, compile } = fresh();
    writeFileSync(at('bad.mid'), 'no music');
    const { status, err } = await compile('a.mid', 'bad.mid', 'gone.mid', '-o', 'out/');
    expect(status).toBe(1);
    expect(err).toContain('bad.mid, byte 0: error [not-midi]');
    expect(err).toContain('gone.mid: error [cannot-read]');
    expect(readdirSync(at('out'))).toEqual([]);
    mkdirSync(at('out/b.mid'));
    expect((await compile('a.mid', 'b.mid', '-o', 'out/')).status).toBe(1);
    expect(readdirSync(at('out'))).toEqual(['b.mid']);
  });

  it('hear of what is wrong with their map once', async () => {
    const { at, compile } = fresh();
    const { status, err } = await runHere([
      'compile',
      at('a.mid'),
      at('b.mid'),
      '-o',
      at('out/'),
      '--map',
      at('none.yaml'),
    ]);
    expect([status, err.match(/\[cannot-read\]/gu)?.length]).toEqual([1, 1]);
    expect((await compile('a.mid', 'a.mid', '-o', 'out/')).status).toBe(0);
    expect(readdirSync(at('out'))).toEqual(['a.mid']);
  });

  it('may take the place of the recordings, where that is asked for', async () => {
    const { at, compile } = fresh();
    expect((await compile('a.mid', 'b.mid', '-o', 'out/')).status).toBe(0);
    expect((await compile('a.mid', 'b.mid', '--in-place')).status).toBe(0);
    for (const name of ['a.mid', 'b.mid'])
      expect(readFileSync(at(name))).toEqual(readFileSync(at(`out/${name}`)));
  });

  it('are refused where a track has to be chosen, with the name of the recording', async () => {
    const { at, compile } = fresh();
    writeFileSync(at('b.mid'), bytesOf([take(50), take(60, 'Violas')]));
    const { status, err } = await compile('a.mid', 'b.mid', '-o', 'out/');
    expect([status, readdirSync(at('out'))]).toEqual([2, []]);
    expect(err).toMatch(/b\.mid": several tracks have notes/u);
    expect(err).toContain('"Violas"');
  });
});

describe('a command line with several recordings is wrong', () => {
  it.each([
    ['without -o', ['a.mid', 'b.mid'], '-o FOLDER/'],
    ['with one file for all', ['a.mid', 'b.mid', '-o', 'out.mid'], 'is one file, and 2 recordings are given'],
    ['with one report for all', ['a.mid', 'b.mid', '-o', 'out', '--report', 'r.json'], '--report FOLDER/'],
    ['with standard input among them', ['a.mid', '-', '-o', 'out'], 'standard input is one recording'],
    ['with standard output', ['a.mid', 'b.mid', '-o', '-'], 'standard output takes one result'],
    ['with a report on standard output', ['a.mid', 'b.mid', '-o', 'out', '--report', '-'], 'standard output'],
    ['with standard input into a folder', ['-', '-o', 'out'], 'has no name'],
    ['into their own folder', ['a.mid', 'b.mid', '-o', '.'], 'would overwrite'],
    ['with one name twice', ['a.mid', 'sub/a.mid', '-o', 'out'], 'sub/a.mid" would both be written'],
    ['with names that differ in case alone', ['a.mid', 'sub/A.MID', '-o', 'out'], 'would both be written'],
    ['with a score of that name', ['a.mid', 'sub/a.mei', '-o', 'out'], 'would both be written'],
    ['with reports of one name', ['a.mid', 'sub/a.midi', '-o', 'out', '--report', 'out'], 'out/a.json'],
    [
      'into a folder where an output is another input',
      ['b.mid', 'sub/c.mid', '-o', 'sub'],
      'overwrite "/sub/c.mid"',
    ],
    ['with --watch and --in-place', ['a.mid', 'b.mid', '--in-place', '--watch'], '--in-place'],
  ])('%s', async (_, words, told) => {
    const { at, folder, compile } = fresh();
    mkdirSync(at('sub'));
    // A second name of the first take, so that nothing but names differs.
    for (const name of ['a.mid', 'A.MID', 'a.mei', 'a.midi', 'c.mid'])
      linkSync(at('a.mid'), at(`sub/${name}`));
    const { status, err } = await compile(...words);
    expect([status, err.match(/^keyslip: error \[command-line\]/gmu)?.length], err).toEqual([2, 1]);
    expect(err.replaceAll(folder, '')).toContain(told);
    expect(readdirSync(at('out'))).toEqual([]);
  });
});

describe('a folder for results', () => {
  it('takes one recording too', async () => {
    const { at, compile } = fresh();
    expect((await compile('a.mid', '-o', 'out', '--report', 'out')).status).toBe(0);
    expect(readdirSync(at('out'))).toEqual(['a.json', 'a.mid']);
  });

  it('is not made: that it is not there is told once', async () => {
    const { at, compile } = fresh();
    const { status, err } = await compile('a.mid', 'b.mid', '-o', 'new/', '--report', 'new/');
    expect([status, existsSync(at('new'))]).toEqual([1, false]);
    expect(err.match(/there is no such folder/gu)).toHaveLength(1);
    expect(err).toContain('make the folder first');
    expect((await compile('a.mid', '-o', 'b.mid/')).err).toContain('it is a file, not a folder');
  });

  it('lets a score be a MIDI file of its name', async () => {
    const { at, compile } = fresh();
    expect((await runHere(['sheet', at('a.mid'), '--map', map, '-o', at('tune.musicxml')])).status).toBe(0);
    const { status, err } = await compile('b.mid', 'tune.musicxml', '-o', 'out/');
    expect([status, err]).toEqual([0, '']);
    expect(readdirSync(at('out'))).toEqual(['b.mid', 'tune.mid']);
  });
});
