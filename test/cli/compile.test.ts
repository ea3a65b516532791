import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { keyslip, scratchFolder } from '../support/cli.js';
import { bytesOf, trackOf } from '../support/song.js';

const cwd = scratchFolder();
const map = resolve('maps/saltmarsh-horns.yaml');
const strings = resolve('maps/lantern-street-strings.yaml');
const recording = resolve('maps/demo/last-boat.mid');
const notes = (pitch: number, channel = 0) =>
  [0, 480, 960].map((tick) => ({ tick, end: tick + 200, pitch, channel }));
const put = (name: string, bytes: Uint8Array) => {
  writeFileSync(join(cwd, name), bytes);
  return name;
};
const several = put(
  'several.mid',
  bytesOf([trackOf([], [], 'Score'), trackOf(notes(50), [], 'Horns'), trackOf(notes(60), [], 'Violas')]),
);
const report = (name: string): unknown => JSON.parse(readFileSync(join(cwd, name), 'utf8'));

describe('keyslip compile', () => {
  it('writes the result and ends with a summary', () => {
    const { status, out, err } = keyslip(
      ['compile', recording, '--map', map, '-o', 'out.mid', '--report', 'report.json'],
      { cwd },
    );
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toMatch(/staccato-1 +\d+ notes/u);
    expect(out).toMatch(/\d+ switches sent before \d+ notes/u);
    expect(readFileSync(join(cwd, 'out.mid')).subarray(0, 4).toString()).toBe('MThd');
    expect(report('report.json')).toMatchObject({
      input: recording,
      map,
      parts: [{ track: 2, name: 'Horns', channel: 1 }],
    });
  });

  it('gives the same bytes twice, and through standard input and output', () => {
    keyslip(['compile', recording, '--map', map, '-o', 'twice.mid'], { cwd });
    const piped = keyslip(['compile', '-', '--map', map, '-o', '-'], {
      cwd,
      input: new Uint8Array(readFileSync(recording)),
    });
    expect(piped.status).toBe(0);
    expect(Buffer.from(piped.bytes)).toEqual(readFileSync(join(cwd, 'twice.mid')));
    expect(piped.err).toContain('standard output');
  });

  it('says where the first note leaves its switch no time, and what mends it', () => {
    const first = put('first.mid', bytesOf([trackOf(notes(50))]));
    const compile = (...more: readonly string[]) =>
      keyslip(['compile', first, '--map', map, '-o', 'first-out.mid', '--strict', ...more], { cwd });
    const told = 'the first note stands at the very beginning: its switch has no time before it';
    expect(compile()).toMatchObject({ status: 0, err: '', out: expect.stringContaining(told) });
    expect(compile('--preroll', '1')).toMatchObject({ status: 0, out: expect.not.stringContaining(told) });
  });

  it('lists the tracks and asks where several have notes', () => {
    const { status, err } = keyslip(['compile', several, '--map', map, '-o', 'x.mid'], { cwd });
    expect(status).toBe(2);
    expect(err).toContain('--track');
    expect(err).toMatch(/2 {2}"Horns" {2}channel 1/u);
    expect(err).toMatch(/3 {2}"Violas" {2}channel 1/u);
    expect(existsSync(join(cwd, 'x.mid'))).toBe(false);
  });

  it('takes tracks by name or number, several of them', () => {
    expect(
      keyslip(['compile', several, '--map', map, '--track', 'Horns', '-o', 'a.mid', '--report', 'a.json'], {
        cwd,
      }).status,
    ).toBe(0);
    expect(report('a.json')).toMatchObject({ parts: [{ track: 2 }] });
    expect(
      keyslip(
        [
          'compile',
          several,
          '--map',
          map,
          '--track',
          '3',
          '--track',
          '2',
          '-o',
          'b.mid',
          '--report',
          'b.json',
        ],
        { cwd },
      ).status,
    ).toBe(0);
    expect(report('b.json')).toMatchObject({ parts: [{ track: 3 }, { track: 2 }] });
  });

  it('takes a map for each of several tracks', () => {
    const words = [
      'compile',
      several,
      '--map',
      `Horns=${map}`,
      '--map',
      `3=${strings}`,
      '-o',
      'c.mid',
      '--report',
      'c.json',
    ];
    expect(keyslip(words, { cwd }).status).toBe(0);
    expect(report('c.json')).toMatchObject({ map: [map, strings], parts: [{ track: 2 }, { track: 3 }] });
  });

  it('names the nearest track for one that is not there', () => {
    const { status, err } = keyslip(['compile', several, '--map', map, '--track', 'Hrons', '-o', 'x.mid'], {
      cwd,
    });
    expect(status).toBe(2);
    expect(err).toContain('did you mean "Horns"?');
  });

  it('compiles one channel of a track, or all of them with a warning (several-channels)', () => {
    const mixed = put('mixed.mid', bytesOf([trackOf([...notes(50), ...notes(52, 4)], [], 'Mixed')]));
    const all = keyslip(['compile', mixed, '--map', map, '-o', 'd.mid', '--report', 'd.json'], { cwd });
    expect(all.status).toBe(0);
    expect(all.err).toContain('[several-channels]');
    expect(report('d.json')).toMatchObject({ parts: [{ channel: 1 }, { channel: 5 }] });
    expect(
      keyslip(['compile', mixed, '--map', map, '--channel', '5', '-o', 'e.mid', '--report', 'e.json'], {
        cwd,
      }).err,
    ).toBe('');
    expect(report('e.json')).toMatchObject({ parts: [{ channel: 5 }] });
    expect(keyslip(['compile', mixed, '--map', map, '--channel', '7', '-o', 'f.mid'], { cwd }).status).toBe(
      2,
    );
    expect(keyslip(['compile', mixed, '--map', map, '--channel', '17', '-o', 'f.mid'], { cwd }).status).toBe(
      2,
    );
  });

  it('reports a file without notes (no-notes)', () => {
    const empty = put('empty.mid', bytesOf([trackOf([])]));
    const { status, err } = keyslip(['compile', empty, '--map', map, '-o', 'x.mid'], { cwd });
    expect(status).toBe(1);
    expect(err).toContain('[no-notes]');
  });

  it('lists every error of the input and the map, and leaves the old output alone', () => {
    writeFileSync(join(cwd, 'old.mid'), 'old');
    writeFileSync(join(cwd, 'bad.yaml'), 'format: keyslip-map/1\nlibary: X\nrange: [C2]\n');
    const { status, err } = keyslip(
      ['compile', put('bad.mid', new Uint8Array([1, 2, 3])), '--map', 'bad.yaml', '-o', 'old.mid'],
      { cwd },
    );
    expect(status).toBe(1);
    for (const code of ['not-midi', 'unknown-key', 'missing-key']) expect(err).toContain(`[${code}]`);
    expect(err).not.toMatch(/^\s+at .*\.js/mu);
    expect(readFileSync(join(cwd, 'old.mid'), 'utf8')).toBe('old');
  });

  it('lets warnings pass unless --strict, and keeps them back with --quiet', () => {
    const high = put('high.mid', bytesOf([trackOf(notes(100))]));
    const plain = keyslip(['compile', high, '--map', map, '-o', 'g.mid'], { cwd });
    expect([plain.status, plain.err.includes('[note-out-of-range]')]).toEqual([0, true]);
    const strict = keyslip(['compile', high, '--map', map, '-o', 'h.mid', '--strict'], { cwd });
    expect([strict.status, existsSync(join(cwd, 'h.mid'))]).toEqual([1, false]);
    const quiet = keyslip(['compile', high, '--map', map, '-o', 'i.mid', '--quiet'], { cwd });
    expect([quiet.status, quiet.out, quiet.err]).toEqual([0, '', '']);
  });

  it('prints one JSON document with --json', () => {
    const good = keyslip(['compile', recording, '--map', map, '-o', 'j.mid', '--json'], { cwd });
    expect(JSON.parse(good.out)).toMatchObject({
      input: recording,
      output: 'j.mid',
      parts: [{ track: 2 }],
      diagnostics: [],
    });
    const bad = keyslip(['compile', 'bad.mid', '--map', map, '-o', 'k.mid', '--json'], { cwd });
    expect(JSON.parse(bad.out)).toMatchObject({ diagnostics: [{ code: 'not-midi', severity: 'error' }] });
  });
});

describe('files', () => {
  it('the input is never overwritten without --in-place', () => {
    const original = bytesOf([trackOf(notes(50))]);
    put('own.mid', original);
    const refused = keyslip(['compile', 'own.mid', '--map', map, '-o', './own.mid'], { cwd });
    expect([refused.status, refused.err.includes('--in-place')]).toEqual([2, true]);
    expect(new Uint8Array(readFileSync(join(cwd, 'own.mid')))).toEqual(original);
    expect(keyslip(['compile', 'own.mid', '--map', map, '--in-place'], { cwd }).status).toBe(0);
    expect(readFileSync(join(cwd, 'own.mid')).length).toBeGreaterThan(original.length);
  });

  it('a missing input is named with its nearest neighbour (cannot-read)', () => {
    const { status, err } = keyslip(['compile', 'sevral.mid', '--map', map, '-o', 'x.mid'], { cwd });
    expect(status).toBe(1);
    expect(err).toContain('[cannot-read]');
    expect(err).toContain('did you mean "several.mid"?');
  });

  it('a missing output folder is named (cannot-write)', () => {
    const { status, err } = keyslip(['compile', recording, '--map', map, '-o', 'nowhere/x.mid'], { cwd });
    expect([status, err.includes('[cannot-write]')]).toEqual([1, true]);
  });
});

describe('the command line', () => {
  it('wrong in any way is status 2, with a word on what is right', () => {
    for (const words of [
      [],
      ['compile'],
      ['compile', recording],
      ['compile', recording, '--map', map],
      ['compile', recording, '-o', 'x.mid'],
      ['explain', recording],
      ['prove', recording],
      ['compil'],
      ['compile', recording, '--mpa', map, '-o', 'x'],
      ['explain', recording, '--map', map, '--at', 'x'],
    ]) {
      const { status, err, out } = keyslip(words, { cwd });
      expect([words, status]).toEqual([words, 2]);
      expect(`${err}${out}`).not.toBe('');
    }
    expect(keyslip(['compil'], { cwd }).err).toContain('compile');
  });

  it('explains itself with --help and --version', () => {
    for (const words of [['--help'], ['compile', '--help'], ['help', 'explain']])
      expect(keyslip(words).status).toBe(0);
    expect(keyslip(['--help']).out).toContain('articulation');
    expect(keyslip(['--version']).out).toBe('0.1.0\n');
  });

  it('shows no control characters that came in by the command line', () => {
    for (const words of [
      ['\x1b[31mbad'],
      ['check', '\x1b]0;x\x07.yaml'],
      ['compile', recording, '--map', map, '--track', '\x1b[2J', '-o', 'x'],
    ]) {
      const { err } = keyslip(words, { cwd });
      expect(err).not.toContain('\x1b');
      expect(err).not.toBe('');
    }
  });
});
