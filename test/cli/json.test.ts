import { cpSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { testBank } from '../sound/hear/support/bank.js';
import { keyslip, scratchFolder } from '../support/cli.js';
import { commitAll } from '../support/git.js';
import { bounceOfOneReed, longTake, oneReed, reeds, reedsSketch } from '../support/reeds.js';
import { validatorOf } from '../support/schema.js';

const cwd = scratchFolder();
cpSync('maps', join(cwd, 'maps'), { recursive: true });
writeFileSync(join(cwd, 'reeds.yaml'), reeds);
writeFileSync(join(cwd, 'sketch.yaml'), reedsSketch);
writeFileSync(join(cwd, 'one-reed.yaml'), oneReed);
writeFileSync(join(cwd, 'long.mid'), longTake());
writeFileSync(join(cwd, 'bounce.wav'), bounceOfOneReed());
writeFileSync(join(cwd, 'bank.sf2'), testBank());
mkdirSync(join(cwd, 'out'));
commitAll(cwd);
writeFileSync(
  join(cwd, 'maps/other.yaml'),
  readFileSync('maps/saltmarsh-horns.yaml', 'utf8').replace('below: 160ms', 'below: 110ms'),
);
const map = 'maps/saltmarsh-horns.yaml';
const other = 'maps/other.yaml';
const take = 'maps/demo/last-boat.mid';
const cue = 'maps/demo/skerry-point.cue.yaml';

const errorsOf = validatorOf(JSON.parse(keyslip(['schema', 'report']).out) as object);

function hold(words: readonly string[], asked: readonly string[] = ['--json']) {
  const { status, out } = keyslip([...words, ...asked], { cwd });
  const printed = JSON.parse(out) as Readonly<Record<string, unknown>>;
  return { status, printed, errors: errorsOf(printed) };
}

/** Command lines that do what they are for; in this order, since some read what others wrote. */
const done: readonly (readonly [status: number, ...words: string[]])[] = [
  [0, 'check', map, cue],
  [1, 'compare', map, other, take],
  [1, 'compare', map, other],
  [1, 'compare', map, 'maps/breakwater-trombones.yaml', take],
  [0, 'compare', '--since', 'HEAD'],
  [0, 'compare', take, take, '--map', map],
  [1, 'compare', cue, 'maps/demo/last-boat.mid', '--part', 'Horns'],
  [0, 'compile', take, '--map', map, '-o', 'out.mid', '--report', 'report.json'],
  [0, 'compile', take, '--map', map, '-o', 'timed.mid', '--pull', '60%', '--roll', '18ms'],
  [0, 'compile', take, 'long.mid', '--map', 'reeds.yaml', '-o', 'out/'],
  [0, 'cue', cue, '-o', 'cue.mid'],
  [0, 'explain', take, '--map', map, '--at', '3'],
  [0, 'explain', cue],
  [0, 'prove', 'out.mid', '--map', map, '--against', take],
  [0, 'prove', 'cue.mid', '--cue', cue],
  [1, 'prove', 'out.mid', '--map', other, '--against', take],
  [0, 'inspect', take],
  [0, 'inspect', cue, '--brief'],
  [0, 'sheet', take, '--map', map, '-o', 'sheet.html'],
  [0, 'sheet', take, '--map', map, '-o', 'boat.musicxml'],
  [0, 'sheet', take, '--map', map, '-o', 'heard.html', '--sound', '--bank', 'bank.sf2'],
  [0, 'mark', take, '--score', 'boat.musicxml', '-o', 'marked.mid'],
  [0, 'set', 'maps/demo/gangway.txt', '--to', 'maps/demo/gangway.mid', '-o', 'maps/demo/gangway.chords.mid'],
  [
    0,
    'voice',
    'maps/demo/gangway.chords.mid',
    ...['--parts', 'maps/demo/gangway.cue.yaml', '--tune', 'none', '-o', 'maps/demo/gangway.parts.mid'],
  ],
  [0, 'move', cue, '--part', 'Trumpets', '--to', 'maps/demo/libraries/harbour-light-horns.yaml', '--write'],
  [0, 'probe', map, '-o', 'probe.mid', '--quick'],
  [0, 'suggest', take, '--map', map],
  [1, 'learn', take, '--map', map, '-o', 'learned.yaml'],
  [0, 'learn', 'out/long.mid', '--map', 'sketch.yaml', '-o', 'learned.yaml'],
  [0, 'measure', 'bounce.wav', '--map', 'one-reed.yaml', '--write'],
  [0, 'hear', take, '--map', map, '--bank', 'bank.sf2', '--at', '1..2', '--format', '16', '-o', 'boat.wav'],
];

/** Command lines whose files are not there, or say nothing that can be read. */
const failed: readonly (readonly string[])[] = [
  ['check', 'nowhere.yaml', 'sheets'],
  ['compare', 'nowhere.yaml', map, take],
  ['compare', '--since', 'nowhere'],
  ['compare', take, 'nowhere.mid', '--map', map],
  ['compare', cue, 'nowhere.cue.yaml'],
  ['compile', 'nowhere.mid', '--map', map, '-o', 'x.mid'],
  ['cue', 'nowhere.cue.yaml'],
  ['explain', 'nowhere.mid', '--map', map],
  ['prove', 'nowhere.mid', '--map', map],
  ['prove', '--cue', 'nowhere.yaml', 'out.mid'],
  ['inspect', 'nowhere.mid'],
  ['sheet', 'nowhere.mid', '--map', map, '-o', 'x.html'],
  ['hear', 'nowhere.mid', '--map', map, '-o', 'x.wav'],
  ['mark', 'nowhere.mid', '--score', 'nowhere.mei', '-o', 'x.mid'],
  ['set', 'nowhere.mid', '--to', take, '-o', 'x.mid'],
  ['voice', 'nowhere.mid', '--parts', cue, '-o', 'x.mid'],
  ['move', 'nowhere.cue.yaml', '--part', 'Horns', '--to', map],
  ['move', cue, '--part', 'Horns', '--to', 'maps/demo/libraries/nowhere.yaml'],
  ['probe', 'nowhere.yaml', '-o', 'x.mid'],
  ['measure', 'nowhere.wav', '--map', map],
  ['learn', 'nowhere.mid', '--map', map, '-o', 'x.yaml'],
  ['suggest', 'nowhere.mid', '--map', map],
];

describe('JSON that commands print', () => {
  for (const [status, ...words] of done)
    it(`has the shape of the schema: ${words.join(' ')}`, () => {
      const held = hold(words);
      expect({ status: held.status, errors: held.errors }).toEqual({ status, errors: [] });
    });

  for (const words of failed)
    it(`tells what is wrong, where it fails: ${words.join(' ')}`, () => {
      const { status, printed, errors } = hold(words);
      expect({ status, errors }).toEqual({ status: 1, errors: [] });
      expect(JSON.stringify(printed)).toContain('"severity":"error"');
    });

  it('is the same in a report', () => {
    const report = JSON.parse(readFileSync(join(cwd, 'report.json'), 'utf8')) as Record<string, unknown>;
    expect(errorsOf(report)).toEqual([]);
    // The contract of the report: input, map, parts.
    expect(report).toMatchObject({ format: 'keyslip-report/1', input: take, map });
  });

  it('tells a wrong command line too', () => {
    for (const words of [['compile', take], ['explain'], ['check', map, '--wrong'], ['compare', map]]) {
      const { status, printed, errors } = hold(words);
      expect([words, status, errors]).toEqual([words, 2, []]);
      expect(printed).toMatchObject({ diagnostics: [{ code: 'command-line', severity: 'error' }] });
    }
    // What would be right is told as it is to people.
    expect(hold(['check', map, '--strit']).printed).toMatchObject({
      diagnostics: [{ message: 'check has no option "--strit"', hint: 'did you mean "--strict"?' }],
    });
    expect(hold(['compare', map], ['--format', 'json']).status).toBe(2);
    expect(keyslip(['compile', take, '--', '--json'], { cwd }).out).toBe('');
  });

  it('is the same by --format json', () => {
    for (const words of [
      ['check', map],
      ['compare', map, other, take],
    ])
      expect(hold(words, ['--format', 'json']).printed).toEqual(hold(words).printed);
  });

  it('would not pass with a name that the schema does not have', () => {
    const { printed } = hold(['explain', take, '--map', map]);
    expect(errorsOf({ ...printed, file: take })).not.toEqual([]);
    const diagnostics = [{ code: 'no-such', severity: 'error', message: '' }];
    expect(errorsOf({ ...printed, diagnostics })).not.toEqual([]);
    // Of the formats that are not the report's likewise.
    for (const format of ['keyslip-learn/1', 'keyslip-measure/1', 'keyslip-suggest/1']) {
      expect(errorsOf({ format, diagnostics: [] })).toEqual([]);
      expect(errorsOf({ format, diagnostics: [], other: 1 })).not.toEqual([]);
    }
  });
});
