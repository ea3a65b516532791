import { cpSync, mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Ajv from 'ajv/dist/2020.js';
import { beforeEach, describe, expect, it } from 'vitest';
import { reportSchema } from '../../src/report/schema/index.js';
import { scratchFolder } from '../support/cli.js';
import { runHere } from '../support/in-process.js';

const folder = scratchFolder();
const cwd = join(folder, 'piece');
cpSync('test/cases/piece', cwd, { recursive: true });
const cue = join(cwd, 'piece.cue.yaml');
const whole = readFileSync(cue, 'utf8');
const marrow = join(cwd, 'maps/marrow-horns.yaml');
const move = (...words: readonly string[]) => runHere(['move', cue, ...words]);
const horns = (...words: readonly string[]) => move('--part', 'Horns', '--to', marrow, ...words);
const validate = new Ajv.default({ allErrors: true, allowUnionTypes: true }).compile(reportSchema());

/** The maps of the piece with something otherwise. */
function mapWith(name: string, from: string, change: (text: string) => string): string {
  const path = join(cwd, 'maps', name);
  writeFileSync(path, change(readFileSync(join(cwd, 'maps', from), 'utf8')));
  return path;
}

beforeEach(() => writeFileSync(cue, whole));

describe('keyslip move', () => {
  it('says what becomes what, how many notes each, in which bars, and writes nothing by itself', async () => {
    const { status, out, err } = await horns();
    expect([status, err]).toEqual([0, '']);
    // The piece has 150 notes of horns (test/cases); the meanings are those of the maps, the bars have one before the music.
    expect(out.split('\n').slice(0, 6)).toEqual([
      'Horns: Tallow Brass, Horns a4 → Marrowgate Brass, Horns a6',
      '  sustain → long (same meaning): 73 notes, bars 19–26, 39–50',
      '  staccato → spic (same meaning): 74 notes, bars 19–21, 23–25, 39–46',
      '  marcato → long (plain sound of its class): 2 notes, bars 21, 23',
      '  legato → long (by its rules; slur comes nearer): 1 note, bar 19',
      '147 of 150 notes keep what they mean, 3 do not.',
    ]);
    expect(out).toMatch(
      /\nNothing was written: with --write, .*piece\.cue\.yaml:\d+ gets maps\/marrow-horns\.yaml\.\n$/u,
    );
    expect(readFileSync(cue, 'utf8')).toBe(whole);
  });

  it('writes the line of the part, and no other character', async () => {
    const { status, out } = await horns('--write');
    expect(status).toBe(0);
    expect(out).toMatch(/\nWritten: .*piece\.cue\.yaml:\d+ has maps\/marrow-horns\.yaml now\.\n$/u);
    const text = readFileSync(cue, 'utf8');
    expect(text).toBe(whole.replace('maps/tallow-horns.yaml', 'maps/marrow-horns.yaml'));
    expect((await runHere(['check', cue])).status).toBe(0);
    // Moved there, there is nothing more to write.
    const { mtimeMs } = statSync(cue);
    expect((await horns('--write')).out).toContain('has maps/marrow-horns.yaml already.');
    expect(statSync(cue).mtimeMs).toBe(mtimeMs);
  });

  it('says the same in JSON, in the shape of the schema', async () => {
    const printed = JSON.parse((await horns('--json')).out) as Record<string, unknown>;
    expect([validate(printed), validate.errors]).toEqual([true, null]);
    expect(printed).toMatchObject({
      format: 'keyslip-report/1',
      input: cue,
      part: 'Horns',
      b: marrow,
      notes: 150,
      written: [],
      diagnostics: [],
    });
    expect((printed.moved as unknown[])[2]).toEqual({
      from: 'marcato',
      to: 'long',
      likeness: 'plain',
      notes: 2,
      bars: [
        { from: 21, to: 21 },
        { from: 23, to: 23 },
      ],
    });
    const written = JSON.parse((await horns('--json', '--write')).out) as Record<string, unknown>;
    expect([validate(written), written.written]).toEqual([true, [cue]]);
    expect(JSON.stringify(written)).not.toContain('Nothing was written');
  });

  it('tells what is lost and what no longer fits, and writes nothing then with --strict', async () => {
    const narrow = mapWith('narrow.yaml', 'marrow-horns.yaml', (text) =>
      text
        .replace(/range: .*/u, 'range: [F3, C5]')
        .replace(/means: \[\s*staccatissimo,\s*staccato\s*\]/u, 'means: [tremolo]'),
    );
    const words = ['--part', 'Horns', '--to', narrow, '--write'];
    const strict = await move(...words, '--strict');
    expect(strict.status).toBe(1);
    expect(strict.err).toContain('warning [meaning-lost]: staccato is lost in "Marrowgate Brass, Horns a6"');
    expect(strict.err).toContain('warning [note-out-of-range]');
    expect(strict.out).toContain('staccato → spic (lost, staccato has nothing like it there): 74 notes');
    expect(strict.out).toMatch(/no longer in the range F3 to C5: \d+ notes, bars .*\n/u);
    expect(readFileSync(cue, 'utf8')).toBe(whole);
    expect((await move(...words)).status).toBe(0);
    expect(readFileSync(cue, 'utf8')).toBe(whole.replace('tallow-horns', 'narrow'));
  });

  it('writes nothing where the music would act as switches of the new library', async () => {
    const switches = mapWith('switches.yaml', 'marrow-horns.yaml', (text) =>
      text
        .replace(/range: .*/u, 'range: [F3, G4]')
        .replace('note: C1 ', 'note: A#4 ')
        .replace('note: C1,', 'note: A#4,'),
    );
    const { status, err, out } = await move('--part', 'Horns', '--to', switches, '--write');
    expect(status).toBe(1);
    expect(err).toContain('error [note-is-switch]');
    expect(out).toContain('Nothing was written: mend the map or the music first.');
    expect(readFileSync(cue, 'utf8')).toBe(whole);
  });

  it('moves a layer in place of its part', async () => {
    const { status, out } = await horns('--layer', 'bite', '--write');
    expect(status).toBe(0);
    expect(out).toContain('Horns, layer bite: Tallow Brass, Bite horns → Marrowgate Brass, Horns a6');
    expect(readFileSync(cue, 'utf8')).toBe(whole.replace('tallow-bite', 'marrow-horns'));
  });

  it('is an error, with what would be right, where the map is wrong, not there, or elsewhere', async () => {
    for (const [to, said] of [
      [join(cwd, 'maps/nowhere.yaml'), '[cannot-read]'],
      [join(cwd, 'take.mid'), '[yaml-syntax]'],
      [
        mapWith('wrong.yaml', 'marrow-horns.yaml', (text) => text.replace('tenuto', 'tenutto')),
        'did you mean "tenuto"?',
      ],
      [join(folder, 'elsewhere.yaml'), '[path-outside]'],
    ] as const) {
      const { status, err, out } = await move('--part', 'Horns', '--to', to, '--write');
      expect([to, status, out]).toEqual([to, 1, '']);
      expect(err).toContain(said);
      expect(readFileSync(cue, 'utf8')).toBe(whole);
    }
  });

  it('is an error where the line cannot be written by itself', async () => {
    const shared = whole
      .replace('map: maps/tallow-horns.yaml', 'map: &horns maps/tallow-horns.yaml')
      .replace('map: maps/tallow-bite.yaml', 'map: *horns');
    expect(shared).toContain('*horns');
    writeFileSync(cue, shared);
    const { status, err } = await horns('--write');
    expect([status, err.includes('error [not-moved]')]).toEqual([1, true]);
    expect(readFileSync(cue, 'utf8')).toBe(shared);
  });

  it('takes the path from the folder of the cue, wherever it is called from', async () => {
    mkdirSync(join(cwd, 'new room'), { recursive: true });
    cpSync(marrow, join(cwd, 'new room/horns, six.yaml'));
    await move('--part', 'Horns', '--to', join(cwd, 'new room/horns, six.yaml'), '--write');
    expect(readFileSync(cue, 'utf8')).toBe(
      whole.replace('maps/tallow-horns.yaml', '"new room/horns, six.yaml"'),
    );
  });

  it('is status 2 for a wrong command line, with the nearest name', async () => {
    for (const [words, said] of [
      [['--part', 'Hrons', '--to', marrow], 'did you mean "Horns"?'],
      [['--part', 'Horns', '--layer', 'bit', '--to', marrow], 'did you mean "bite"?'],
      [['--part', 'Flutes', '--layer', 'bite', '--to', marrow], 'it has no layers'],
      [['--to', marrow], '--part NAME'],
      [['--part', 'Horns'], '--to MAP.yaml'],
      [['--part', 'Horns', '--to', '-'], 'not standard input'],
    ] as const) {
      const { status, err } = await move(...words);
      expect([words, status, err.includes(said)]).toEqual([words, 2, true]);
    }
    expect((await runHere(['move', '-', '--part', 'Horns', '--to', marrow, '--write'])).status).toBe(2);
  });
});
