import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type MidiEvent, parseMidi, writeMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { scratchFolder } from '../support/cli.js';
import { runHere } from '../support/in-process.js';

const folder = scratchFolder();
const at = (name: string) => join(folder, name);
const recording = 'maps/demo/last-boat.mid';
const map = ['--map', 'maps/saltmarsh-horns.yaml'];
const timing = [
  '--compensate',
  '--joins',
  '--preroll',
  '1',
  '--pull',
  '60%',
  '--roll',
  '18ms',
  '--seed',
  '3',
];

const compile = (output: string, ...words: readonly string[]) =>
  runHere(['compile', recording, ...map, '-o', at(output), ...words]);
const prove = (output: string, ...words: readonly string[]) =>
  runHere(['prove', at(output), ...map, '--against', recording, ...words]);

/** What a file says that it was compiled with, by tracks, with ticks, as an outside reader has it. */
function textsOf(name: string) {
  return parseMidi(readFileSync(at(name))).tracks.map((track) => {
    let tick = 0;
    return track.flatMap((event) => {
      tick += event.deltaTime;
      return event.type === 'text' && event.text.startsWith('keyslip/') ? [`${tick} ${event.text}`] : [];
    });
  });
}

/** The file with what it says it was compiled with changed, by an outside writer. */
function changed(from: string, to: string, text: string) {
  const { header, tracks } = parseMidi(readFileSync(at(from)));
  const edited = tracks.map((track) =>
    track.map(
      (event): MidiEvent =>
        event.type === 'text' && event.text.startsWith('keyslip/') ? { ...event, text } : event,
    ),
  );
  writeFileSync(at(to), Uint8Array.from(writeMidi({ header, tracks: edited })));
}

describe('a file that was compiled with timing options', () => {
  it('says so at the beginning of its track, and is proved without them', async () => {
    expect((await compile('timed.mid', ...timing)).status).toBe(0);
    const said =
      '0 keyslip/1 --channel 1 --preroll 1 --compensate --joins --pull 60% --roll 18ms --roll-order unordered --seed 3';
    expect(textsOf('timed.mid')).toEqual([[], [said]]);
    const { status, out } = await prove('timed.mid');
    expect(status).toBe(0);
    expect(out).toContain('Nothing is wrong.');
    expect(out).toContain('The file says that it was compiled with:\n  --channel 1 --preroll 1 --compensate');
  });

  it('is proved by the options that are given, where any are', async () => {
    const right = await prove('timed.mid', ...timing);
    expect([right.status, right.out.includes('The file says')]).toEqual([0, false]);
    expect((await prove('timed.mid', '--compensate')).status).toBe(1);
  });

  it('says nothing where it is asked to be bare, and is the same otherwise', async () => {
    await compile('bare.mid', ...timing, '--bare');
    expect(textsOf('bare.mid')).toEqual([[], []]);
    expect((await prove('bare.mid')).status).toBe(1);
    expect((await prove('bare.mid', ...timing)).status).toBe(0);
    const events = (name: string) =>
      parseMidi(readFileSync(at(name))).tracks.map((track) =>
        track.filter((event) => event.type !== 'text' || !event.text.startsWith('keyslip/')),
      );
    expect(events('timed.mid')).toEqual(events('bare.mid'));
  });

  it('is the only kind that does: without them the bytes are as they always were', async () => {
    await compile('plain.mid');
    await compile('plain-bare.mid', '--bare');
    const plain = readFileSync(at('plain.mid'));
    expect(plain.includes('keyslip/')).toBe(false);
    expect(plain.equals(readFileSync(at('plain-bare.mid')))).toBe(true);
  });

  it('has it replaced where it is compiled again, and is read with no mark in it', async () => {
    const other = ['--map', at('other.yaml')];
    // Another library on the same music: its switches are programs, so that those of the first are music to it.
    writeFileSync(
      at('other.yaml'),
      'format: keyslip-map/1\nlibrary: Reed Bank\ninstrument: Any\nfamily: other\nnote-60: C4\nrange: [0, 127]\narticulations:\n  all: {switch: {program: 3}}\nrules:\n  - use: all\n',
    );
    const again = ['compile', at('timed.mid'), ...other, '-o', at('again.mid'), '--strict'];
    expect((await runHere([...again, '--loosen', '8ms'])).err).toBe('');
    expect(textsOf('again.mid')).toEqual([[], ['0 keyslip/1 --channel 1 --loosen 8ms --seed 1']]);
    expect((await runHere(again)).status).toBe(0);
    expect(textsOf('again.mid')).toEqual([[], []]);
  });

  it('is inspected as if it said nothing, and so it is drawn and proved where no note was started early', async () => {
    const late = timing.filter((word) => word !== '--compensate');
    await compile('late.mid', ...late);
    await compile('bare-late.mid', ...late, '--bare');
    for (const words of [['inspect'], ['sheet', '-o', '-'], ['prove']]) {
      const [command = '', ...more] = words;
      const said = await runHere([command, at('late.mid'), ...map, ...more]);
      const bare = await runHere([command, at('bare-late.mid'), ...map, ...more]);
      const plain = (text: string) => text.replaceAll('bare-late', 'late');
      expect(plain(said.out)).toBe(plain(bare.out));
      expect([said.status, plain(said.err)]).toEqual([bare.status, plain(bare.err)]);
    }
  });

  it('is proved without its recording, where notes were started early: they are taken where they are heard', async () => {
    const early = ['--compensate', '--joins', '--preroll', '1'];
    await compile('early.mid', ...early);
    const { status, out } = await runHere(['prove', at('early.mid'), ...map]);
    expect(out).toContain('all 38 notes sound as meant.');
    expect([status, out.includes('--channel 1 --preroll 1 --compensate --joins')]).toEqual([0, true]);
    await compile('bare-early.mid', ...early, '--bare');
    expect((await runHere(['prove', at('bare-early.mid'), ...map])).status).toBe(1);
  });

  it('is drawn as its recording is with the same options', async () => {
    await compile('early.mid', '--compensate', '--preroll', '1');
    const drawn = await runHere([
      'sheet',
      at('early.mid'),
      ...map,
      '-o',
      at('early.html'),
      '--json',
      '--strict',
    ]);
    const options = ['--compensate', '--preroll', '1', '-o', at('take.html'), '--json'];
    const wanted = await runHere(['sheet', recording, ...map, ...options]);
    expect([drawn.status, drawn.err]).toEqual([0, '']);
    const { notes, switches, bars } = JSON.parse(drawn.out) as Record<string, number>;
    expect(JSON.parse(wanted.out)).toMatchObject({ notes, switches, bars });
  });

  it('is no clip', async () => {
    expect((await compile('clip.midi2', ...timing)).status).toBe(0);
    expect(readFileSync(at('clip.midi2')).includes('keyslip/')).toBe(false);
  });
});

describe('what is not in order in such a text', () => {
  it.each([
    'keyslip/1 --channel 1 --pull 900%',
    'keyslip/9 --channel 1',
    'keyslip/1 \u0000\u001b[31m --output x',
    `keyslip/1 ${'x'.repeat(9000)}`,
  ])('is told, and passed over (%#)', async (text) => {
    changed('timed.mid', 'hostile.mid', text);
    const { status, err, out } = await prove('hostile.mid', ...timing);
    expect(status).toBe(0);
    expect(out).toContain('Nothing is wrong.');
    expect(err).toContain('[unread-options]');
    expect(err).not.toContain('\u001b');
    const sheet = await runHere(['sheet', at('hostile.mid'), ...map, '-o', at('hostile.html')]);
    expect(sheet.status).toBe(0);
  });

  it('of a channel that is not there, or of other options, is found wrong by the proof and by nothing else', async () => {
    changed('timed.mid', 'wrong.mid', 'keyslip/1 --channel 9 --compensate');
    expect((await prove('wrong.mid')).status).toBe(1);
    changed('timed.mid', 'wrong.mid', 'keyslip/1 --channel 1 --joins');
    expect((await prove('wrong.mid')).status).toBe(1);
  });
});

describe('a cue with timing', () => {
  const cue = 'maps/demo/skerry-point.cue.yaml';

  it('is written with what each track was compiled with, and proved by the cue, bare or not', async () => {
    expect((await runHere(['cue', cue, '-o', at('said.mid'), '--prove'])).status).toBe(0);
    expect((await runHere(['cue', cue, '-o', at('bare-cue.mid'), '--bare'])).status).toBe(0);
    const texts = textsOf('said.mid').flat();
    expect(texts.length).toBeGreaterThan(0);
    expect(texts.every((text) => text.includes(' keyslip/1 --channel '))).toBe(true);
    expect(
      textsOf('bare-cue.mid')
        .flat()
        .filter((text) => text.includes('keyslip/')),
    ).toEqual([]);
    for (const output of ['said.mid', 'bare-cue.mid'])
      expect((await runHere(['prove', at(output), '--cue', cue])).status).toBe(0);
  });
});
