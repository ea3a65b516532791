import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { wavSink } from '../../src/sound/hear/index.js';
import { testBank } from '../sound/hear/support/bank.js';
import { scratchFolder } from '../support/cli.js';
import { runHere } from '../support/in-process.js';
import { bytesOf, trackOf } from '../support/song.js';

const cwd = scratchFolder();
/** Words that name files of the folder, by their endings, lead there. */
const inFolder = (word: string) =>
  /\.(mid|yaml|wav|sf2|html|musicxml)$/u.test(word) ? join(cwd, word) : word;
const run = (...words: readonly string[]) => runHere(words.map(inFolder));
const text = (file: string) => readFileSync(join(cwd, file), 'utf8');
writeFileSync(join(cwd, 'bank.sf2'), testBank());
writeFileSync(
  join(cwd, 'late.yaml'),
  `format: keyslip-map/1
library: Slow Bell Reeds
instrument: Reed
family: woodwind
note-60: C4
range: [C2, C7]
articulations:
  long: {switch: {note: C0}, speaks-after: 200ms}
rules:
  - use: long
`,
);
// At 120 a minute: a note at the second quarter of bar 1, and at the first of bars 2 and 3.
const notes = [480, 1920, 3840].map((tick) => ({ tick, end: tick + 480, pitch: 69 }));
writeFileSync(join(cwd, 'take.mid'), bytesOf([trackOf(notes, [], 'Reed')]));
writeFileSync(
  join(cwd, 'night.cue.yaml'),
  'format: keyslip-cue/1\nsource: take.mid\noutput: out.mid\nparts:\n  - name: Reed\n    track: Reed\n    map: late.yaml\n',
);

/** A sound of so many seconds. */
async function soundOf(seconds: number, sampleRate: number, format: '16' | 'float' = '16', sample = 0.1) {
  const pieces: Uint8Array[] = [];
  const sink = wavSink((bytes) => {
    pieces.push(bytes);
  });
  const left = new Float32Array(Math.round(seconds * sampleRate)).fill(sample);
  await sink.begin({ sampleRate, format, frames: left.length });
  await sink.write({ left, right: left });
  return Buffer.concat(pieces);
}
writeFileSync(join(cwd, 'bounce.wav'), await soundOf(6, 44_100));

const sheet = (output: string, ...words: readonly string[]) =>
  run('sheet', 'take.mid', '--map', 'late.yaml', '-o', output, ...words);

function told(file: string) {
  const [, json = ''] = /id="heard">(.*?)<\/script>/u.exec(text(file)) ?? [];
  return JSON.parse(json) as {
    lengthMs: number;
    bars: { bar: number; beats: number[]; toMs: number }[];
    notes: (readonly [number, number])[][];
  };
}

function oggOf(file: string): Buffer {
  return Buffer.from(/id="sound">([^<]*)</u.exec(text(file))?.[1] ?? '', 'base64');
}

describe('a sheet with sound', () => {
  it('has a bounce in it, compressed, and says how large it is', async () => {
    const { status, out, err } = await sheet('a.html', '--sound', 'bounce.wav');
    expect(status).toBe(0);
    expect(out).toContain('3 notes');
    expect(err).toMatch(/sound: .*bounce\.wav, 0:06, 0\.\d\d MB compressed, 0\.\d\d MB of the page/u);
    expect(err).toContain('headphones');
    // RFC 3533, 6: pages begin with OggS
    expect(oggOf('a.html').subarray(0, 4).toString()).toBe('OggS');
    expect(told('a.html').lengthMs).toBe(6000);
    // as late as the map says that they speak
    expect(told('a.html').notes).toEqual([
      [
        [700, 0],
        [2200, 1],
        [4200, 2],
      ],
    ]);
    expect(text('a.html')).not.toMatch(/(media|connect|img)-src/u);
    await sheet('b.html', '--sound', 'bounce.wav');
    expect(text('b.html')).toBe(text('a.html'));
    expect(await sheet('c.html', '--sound', 'bounce.wav', '--quiet')).toMatchObject({ out: '', err: '' });
  });

  it('has no player without, and the same bytes as ever', async () => {
    await sheet('none.html');
    expect(text('none.html')).not.toMatch(/heard|id="sound"/u);
  });

  it('renders it with a bank, in time with the notes', async () => {
    const { status, err } = await sheet('r.html', '--compensate', '--sound', '--bank', 'bank.sf2');
    expect(status).toBe(0);
    expect(err).toMatch(/played with .*bank\.sf2/u);
    expect(told('r.html').notes[0]?.map(([ms]) => Math.round(ms / 10) * 10)).toEqual([500, 2000, 4000]);
    expect(oggOf('r.html').length).toBeGreaterThan(1000);
    const cue = await run(
      'sheet',
      'night.cue.yaml',
      '-o',
      'cue.html',
      '--sound',
      '--bank',
      'bank.sf2',
      '--json',
    );
    expect(JSON.parse(cue.out)).toMatchObject({ notes: 3, sound: { bytes: oggOf('cue.html').length } });
    expect(cue.err).toBe('');
  });

  it('takes of some bars their stretch, and of a file what it begins at', async () => {
    await sheet('some.html', '--at', '2', '--sound', 'bounce.wav');
    expect(told('some.html')).toMatchObject({
      lengthMs: 2000,
      bars: [{ bar: 2, beats: [0, 500, 1000, 1500] }],
    });
    expect(told('some.html').notes).toEqual([[[200, 0]]]);
    await sheet('from.html', '--sound', 'bounce.wav', '--sound-from', '2.3');
    expect(told('from.html').bars[0]).toEqual({ bar: 2, beats: [-1000, -500, 0, 500], toMs: 1000 });
    expect(told('from.html').notes[0]?.map(([ms]) => ms)).toEqual([-2300, -800, 1200]);
  });

  it('reads the sound again with --watch, when it is bounced again', async () => {
    const opened: string[] = [];
    const words = ['sheet', 'night.cue.yaml', '-o', 'w.html', '--sound', 'bounce.wav'];
    await runHere(words.map(inFolder), { opening: (path) => opened.push(path) });
    expect(opened).toContain(join(cwd, 'bounce.wav'));
  });

  it('warns of a sound that ends before the music', async () => {
    writeFileSync(join(cwd, 'short.wav'), await soundOf(2, 44_100));
    const { status, err } = await sheet('short.html', '--sound', 'short.wav');
    expect(status).toBe(0);
    expect(err).toMatch(/\[sound-short\]/u);
    expect(err).toContain('--sound-from');
    expect((await sheet('strict.html', '--sound', 'short.wav', '--strict')).status).toBe(1);
    expect((await sheet('nothing.html', '--at', '3', '--sound', 'short.wav')).err).toContain('[sound-short]');
  });

  it('takes mono, high rates, and samples that are no numbers', async () => {
    writeFileSync(join(cwd, 'nan.wav'), await soundOf(1, 96_000, 'float', Number.NaN));
    expect((await sheet('nan.html', '--sound', 'nan.wav')).status).toBe(0);
    writeFileSync(join(cwd, 'loud.wav'), await soundOf(1, 192_000, 'float', 1e30));
    expect((await sheet('loud.html', '--sound', 'loud.wav')).status).toBe(0);
    const one = await soundOf(1, 48_000);
    one.writeUInt16LE(1, 22);
    one.writeUInt32LE(96_000, 28);
    one.writeUInt16LE(2, 32);
    writeFileSync(join(cwd, 'mono.wav'), one);
    expect((await sheet('mono.html', '--sound', 'mono.wav')).status).toBe(0);
    expect(told('mono.html').lengthMs).toBe(2000);
  });
});

describe('a sound that cannot be', () => {
  it('is told in a sentence, and no sheet is written', async () => {
    const whole = readFileSync(join(cwd, 'bounce.wav'));
    writeFileSync(join(cwd, 'cut.wav'), whole.subarray(0, 30));
    const six = Buffer.from(whole);
    six.writeUInt16LE(6, 22);
    six.writeUInt16LE(12, 32);
    writeFileSync(join(cwd, 'six.wav'), six);
    const long = Buffer.from(whole.subarray(0, 44));
    long.writeUInt32LE(0x7fff_0000, 4);
    long.writeUInt32LE(0x7ffe_0000, 40);
    writeFileSync(join(cwd, 'long.wav'), long);
    for (const [file, code] of [
      ['nowhere.wav', 'cannot-read'],
      ['take.mid', 'not-wav'],
      ['.', 'cannot-read'],
      ['cut.wav', 'wav-truncated'],
      ['six.wav', 'wav-channels'],
      ['long.wav', 'sound-long'],
    ] as const) {
      const { status, err } = await sheet('no.html', '--sound', file);
      expect({ file, status, told: err.includes(`[${code}]`) }).toEqual({ file, status: 1, told: true });
      expect(() => text('no.html')).toThrow();
    }
    expect((await sheet('no.html', '--sound', '--bank', 'take.mid')).err).toContain('[bank-unknown]');
    expect((await sheet('no.html', '--at', '9', '--sound', '--bank', 'bank.sf2')).status).not.toBe(0);
  });

  it('is refused with options that do not go with it', async () => {
    const wrong = async (...words: readonly string[]) => {
      const { status, err } = await sheet('no.html', ...words);
      expect(status).toBe(2);
      return err;
    };
    expect(await wrong('--bank', 'bank.sf2')).toContain('--sound');
    expect(await wrong('--sound', 'bounce.wav', '--bank', 'bank.sf2')).toContain('leave --bank out');
    expect(await wrong('--sound', '--sound-from', '3')).toContain('--sound OUT.wav');
    expect(await wrong('--sound', 'bounce.wav', '--sound-from', 'x')).toContain('is no place');
    expect(await wrong('--sound', '-')).toContain('from a file');
    expect(await wrong('--sound', 'no.html')).toContain('overwrite');
    const score = await run(
      'sheet',
      'take.mid',
      '--map',
      'late.yaml',
      '-o',
      'x.musicxml',
      '--sound',
      'bounce.wav',
    );
    expect(score).toMatchObject({ status: 2 });
    expect((await run('sheet', '--sound', 'take.mid', '--map', 'late.yaml', '-o', 'no.html')).status).toBe(2);
  });
});
