import { existsSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { loadBank } from '../../src/cli/bank.js';
import { testBank } from '../sound/hear/support/bank.js';
import { keyslip, scratchFolder } from '../support/cli.js';
import { bytesOf, trackOf } from '../support/song.js';

const cwd = scratchFolder();
const run = (...words: readonly string[]) => keyslip(words, { cwd });
const map = (more: string) => `format: keyslip-map/1
library: Slow Bell Reeds
instrument: Reed
family: woodwind
note-60: C4
range: [C2, C7]
articulations:
  long: {switch: {note: C0}, speaks-after: 200ms${more}}
rules:
  - use: long
`;
writeFileSync(join(cwd, 'bank.sf2'), testBank());
writeFileSync(join(cwd, 'late.yaml'), map(''));
// A note at the second quarter of 120 a minute: 500 ms.
writeFileSync(join(cwd, 'take.mid'), bytesOf([trackOf([{ tick: 480, end: 960, pitch: 69 }], [], 'Reed')]));

const hear = (output: string, ...words: readonly string[]) =>
  run(
    'hear',
    'take.mid',
    '--map',
    'late.yaml',
    '--bank',
    'bank.sf2',
    '-o',
    output,
    '--format',
    '16',
    ...words,
  );

/** When the left side of a plain 16-bit WAV file is first louder than 1 % of its peak. Unit: ms. */
function onset(file: string, rate = 48_000): number {
  const bytes = readFileSync(join(cwd, file));
  const samples = Array.from({ length: (bytes.length - 44) / 4 }, (_, at) =>
    Math.abs(bytes.readInt16LE(44 + 4 * at)),
  );
  const peak = samples.reduce((most, one) => Math.max(most, one), 0);
  return (1000 * samples.findIndex((one) => one > peak / 100)) / rate;
}

describe('keyslip hear', () => {
  it('lets a note be heard as late as its articulation speaks, and in time where that is made up for', () => {
    const { status, out, err } = hear('late.wav');
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toContain('1 note');
    expect(out).toContain('headphones');
    expect(Math.abs(onset('late.wav') - 700)).toBeLessThan(5);
    hear('time.wav', '--compensate');
    expect(Math.abs(onset('time.wav') - 500)).toBeLessThan(5);
    hear('before.wav', '--before');
    expect(Math.abs(onset('before.wav') - 500)).toBeLessThan(5);
  });

  it('clicks on the beats, keeps to bars, and has the rate that is asked for', () => {
    hear('click.wav', '--click', '--before', '--rate', '44100');
    expect(onset('click.wav', 44_100)).toBeLessThan(5);
    expect(readFileSync(join(cwd, 'click.wav')).readUInt32LE(24)).toBe(44_100);
    const { err, status } = hear('none.wav', '--at', '2..3');
    expect({ status, told: err.includes('[nothing-to-hear]') }).toEqual({ status: 1, told: true });
    expect(existsSync(join(cwd, 'none.wav'))).toBe(false);
  });

  it('does not begin what no WAV file holds: a note may be held for weeks', () => {
    const end = 0x0fffffff;
    writeFileSync(join(cwd, 'weeks.mid'), bytesOf([trackOf([{ tick: 0, end, pitch: 69 }], [], 'Reed')]));
    const { err, status } = run(
      ...['hear', 'weeks.mid', '--map', 'late.yaml', '--bank', 'bank.sf2', '-o', 'weeks.wav'],
    );
    expect({ status, told: err.includes('[sound-long]') }).toEqual({ status: 1, told: true });
    expect(existsSync(join(cwd, 'weeks.wav'))).toBe(false);
    expect(run('inspect', 'weeks.mid', '--map', 'late.yaml').status).toBe(0);
  });

  it('plays what stands in: a program that the bank lacks is told', () => {
    writeFileSync(join(cwd, 'bells.yaml'), map(', stand-in: {program: 14, length: 50%, velocity: 80%}'));
    expect(run('check', '--strict', 'bells.yaml')).toMatchObject({ status: 0, err: '' });
    const words = ['--map', 'bells.yaml', '--bank', 'bank.sf2', '-o', 'bells.wav'];
    expect(run('hear', 'take.mid', ...words).out).toContain('the bank has no program 14');
  });

  it('plays the parts that are named, and says which there are', () => {
    expect(hear('part.wav', '--part', 'Reed')).toMatchObject({ status: 0 });
    const unknown = hear('x.wav', '--part', 'Reeds');
    expect(unknown).toMatchObject({ status: 2 });
    expect(unknown.err).toContain('did you mean "Reed"?');
  });

  it('plays a cue by its own words', () => {
    writeFileSync(
      join(cwd, 'night.cue.yaml'),
      'format: keyslip-cue/1\nsource: take.mid\noutput: out.mid\nparts:\n  - name: Reed\n    track: Reed\n    map: late.yaml\n',
    );
    expect(run('hear', 'night.cue.yaml', '--bank', 'bank.sf2', '-o', 'night.wav')).toMatchObject({
      status: 0,
    });
    expect(run('hear', 'night.cue.yaml', '--map', 'late.yaml', '-o', 'n.wav').status).toBe(2);
    const taken = run('hear', 'night.cue.yaml', '--bank', 'bank.sf2', '-o', 'take.mid');
    expect(taken).toMatchObject({ status: 1 });
    expect(taken.err).toContain('[output-is-input]');
  });

  it('refuses hostile banks with a sentence, and writes nothing', () => {
    const whole = testBank();
    writeFileSync(join(cwd, 'cut.sf2'), whole.subarray(0, whole.length / 2));
    writeFileSync(
      join(cwd, 'noise.sf2'),
      Uint8Array.from({ length: 5000 }, (_, at) => (at * 7919) & 255),
    );
    for (const [bank, code] of [
      ['cut.sf2', 'bank-truncated'],
      ['noise.sf2', 'bank-unknown'],
      ['lost.sf2', 'cannot-read'],
    ] as const) {
      const { status, err } = run('hear', 'take.mid', '--map', 'late.yaml', '--bank', bank, '-o', 'no.wav');
      expect({ status, told: err.includes(`[${code}]`) }).toEqual({ status: 1, told: true });
      expect(existsSync(join(cwd, 'no.wav'))).toBe(false);
    }
  });

  it('refuses to write over its input, or nowhere', () => {
    expect(hear('take.mid').status).toBe(2);
    expect(hear('bank.sf2').status).toBe(2);
    expect(run('hear', 'take.mid', '--map', 'late.yaml').status).toBe(2);
    expect(hear('no/such.wav').err).toContain('[cannot-write]');
  });

  it('refuses names that promise something else', () => {
    expect(hear('out.mid')).toMatchObject({ status: 2 });
    expect(hear('out.ogg').err).toContain('--format ogg');
    expect(hear('out.WAV').status).toBe(0);
    expect(
      run('hear', 'take.mid', '--map', 'late.yaml', '--bank', 'bank.sf2', '--format', 'ogg', '-o', 'o.wav'),
    ).toMatchObject({ status: 2 });
    expect(existsSync(join(cwd, 'out.mid')) || existsSync(join(cwd, 'o.wav'))).toBe(false);
  });

  it('does not read a bank that is too large', async () => {
    const huge = join(cwd, 'huge.sf2');
    writeFileSync(huge, '');
    truncateSync(huge, 3 * 2 ** 30);
    const io = { stdin: async () => new Uint8Array(), out: () => {}, err: () => {}, color: false };
    const { diagnostics } = await loadBank(huge, io);
    expect(diagnostics).toMatchObject([
      { code: 'bank-too-large', message: expect.stringContaining('3072 MB') },
    ]);
    rmSync(huge);
  });

  it('says where banks come from where there is none', async () => {
    const io = { stdin: async () => new Uint8Array(), out: () => {}, err: () => {}, color: false };
    const { value, diagnostics } = await loadBank(undefined, io, [join(cwd, 'nowhere')]);
    expect(value).toBeUndefined();
    expect(diagnostics.map(({ code }) => code)).toEqual(['no-bank']);
    const found = await loadBank(undefined, io, [join(cwd, 'nowhere'), cwd]);
    expect(found.value?.file).toBe(join(cwd, 'bank.sf2'));
  });
});
