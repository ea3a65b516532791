import { spawn } from 'node:child_process';
import { mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { run } from '../../src/cli/program.js';
import { keyslip, program, scratchFolder } from '../support/cli.js';
import { keeping } from '../support/in-process.js';
import { bytesOf, trackOf } from '../support/song.js';

const cwd = scratchFolder();
const put = (name: string, content: Uint8Array | string) => writeFileSync(join(cwd, name), content);
const take = (pitch: number) => bytesOf([trackOf([{ tick: 480, end: 700, pitch }], [], 'Horns')]);
put('take.mid', take(50));
put('horns.yaml', readFileSync('maps/saltmarsh-horns.yaml'));
const cue = (map: string) =>
  `format: keyslip-cue/1\nsource: take.mid\noutput: out.mid\nparts:\n  - {name: Horns, track: 1, map: ${map}}\n`;
put('night.cue.yaml', cue('horns.yaml'));

let told = '';

describe('keyslip cue --watch', () => {
  it('compiles again when a file changes, is put in place of another, or is mended', async () => {
    const child = spawn(process.execPath, [program, 'cue', 'night.cue.yaml', '--watch'], { cwd });
    let said = '';
    const rounds = () => said.split('Watching').length - 1;
    child.stderr.on('data', (data) => {
      said += String(data);
    });
    const round = async (number: number) => {
      for (let waited = 0; rounds() < number && waited < 20_000; waited += 20)
        await new Promise((done) => setTimeout(done, 20));
      expect(rounds()).toBeGreaterThanOrEqual(number);
      return readFileSync(join(cwd, 'out.mid'));
    };
    try {
      const first = await round(1);
      put('next.mid', take(52));
      renameSync(join(cwd, 'next.mid'), join(cwd, 'take.mid'));
      const second = await round(2);
      expect(second).not.toEqual(first);
      put('night.cue.yaml', cue('none.yaml'));
      expect(await round(3)).toEqual(second);
      expect(said).toContain('[cannot-read]');
      put('take.mid', take(50));
      await round(4);
      put('night.cue.yaml', cue('horns.yaml'));
      expect(await round(5)).toEqual(first);
    } finally {
      child.kill();
      told = said;
    }
  }, 60_000);

  it('tells how long it took', () => {
    // Both outcomes are in what the test above has run.
    expect(told).toMatch(/^Done in \d+(\.\d+)? m?s\. Watching 3 files for changes; Ctrl\+C ends it\.$/mu);
    expect(told).toMatch(/^Errors, after \d+(\.\d+)? m?s\. Watching 3 files/mu);
  });

  it('needs files', () => {
    expect(keyslip(['cue', '-', '--watch'], { cwd }).status).toBe(2);
    expect(keyslip(['cue', 'night.cue.yaml', '-o', '-', '--watch'], { cwd }).status).toBe(2);
    expect(keyslip(['cue', 'night.cue.yaml', '--part', 'X', '--watch'], { cwd }).status).toBe(2);
  });
});

/** Runs a command in this process until it has been done so often, with something in between. */
async function rounds(words: readonly string[], changes: readonly (() => unknown)[]) {
  const end = new AbortController();
  const { io, said } = keeping({ ends: end.signal });
  const times = () => said.err.split('Watching').length - 1;
  const outcome = run([...words, '--watch'], io);
  const reached = async (number: number) => {
    for (let waited = 0; times() < number && waited < 20_000; waited += 20) await sleep(20);
  };
  await reached(1);
  for (const [index, change] of changes.entries()) {
    await change();
    await reached(index + 2);
  }
  // Long enough for one time more than there should be.
  await sleep(500);
  end.abort();
  return { status: await outcome, times: times(), said: said.err };
}

// They wait most of the time, and so they wait together; each has files of its own.
describe.concurrent('--watch of other commands', () => {
  const at = (name: string) => join(cwd, name);
  const base = readFileSync('maps/saltmarsh-horns.yaml', 'utf8');
  const edited = base.replace('library:', '# edited\nlibrary:');

  it('compile: several saves in a burst are one; the base of its map is watched too', async () => {
    put('other.mid', take(50));
    put('base.yaml', base);
    put('child.yaml', 'format: keyslip-map/1\nbase: base.yaml\nlibrary: Saltmarsh\ninstrument: Child\n');
    const burst = async () => {
      for (const pitch of [51, 52, 53]) {
        put('other.mid', take(pitch));
        await sleep(60);
      }
    };
    const words = ['compile', at('other.mid'), '--map', at('child.yaml'), '-o', at('other-out.mid')];
    const { status, times, said } = await rounds(words, [burst, () => put('base.yaml', edited)]);
    expect({ status, times }, said).toEqual({ status: 0, times: 3 });
    expect(said).toContain('Watching 3 files');
  });

  it('compile of several: all are done again when one changes', async () => {
    put('one.mid', take(50));
    put('two.mid', take(50));
    mkdirSync(at('several'));
    const words = ['compile', at('one.mid'), at('two.mid'), '--map', at('horns.yaml'), '-o', at('several')];
    const result = () => readFileSync(at('several/two.mid'));
    let first: Buffer | undefined;
    const change = () => {
      first = result();
      put('two.mid', take(52));
    };
    const { status, times, said } = await rounds(words, [change]);
    expect({ status, times }, said).toEqual({ status: 0, times: 2 });
    expect(said).toContain('Watching 3 files');
    expect(result()).not.toEqual(first);
  });

  it('sheet and check: told again when the map is broken and mended', async () => {
    const broken = () => put('own.yaml', 'format: [');
    const mended = () => put('own.yaml', base);
    const sheet = ['sheet', at('take.mid'), '--map', at('own.yaml'), '-o', at('page.html')];
    for (const words of [sheet, ['check', at('own.yaml')]]) {
      put('own.yaml', base);
      const { status, times, said } = await rounds(words, [broken, mended]);
      expect({ status, times }, said).toEqual({ status: 0, times: 3 });
      expect(said).toMatch(/error \[.*\nErrors, after/su);
    }
  });

  it.each([
    ['a folder', 'library', ''],
    ['a pattern', 'patterned', '/**/*.yaml'],
  ])('check of %s: new files are picked up', async (_, library, pattern) => {
    mkdirSync(at(library));
    put(`${library}/first.yaml`, base);
    const added = () => {
      mkdirSync(at(`${library}/deep`));
      put(`${library}/deep/second.yaml`, 'format: keyslip-map/1\n');
    };
    const mended = () => put(`${library}/deep/second.yaml`, base);
    const gone = () => rmSync(at(`${library}/deep`), { recursive: true });
    const { status, times, said } = await rounds(
      ['check', at(`${library}${pattern}`)],
      [added, mended, gone],
    );
    expect({ status, times }, said).toEqual({ status: 0, times: 4 });
    expect(said).toMatch(/second\.yaml.*error \[missing-key\]/u);
    expect(said).toMatch(/Watching 1 file in 1 folder .*Watching 2 files in 2 folders/su);
  });

  it('is refused where the result would be seen as a change', () => {
    const { status, err } = keyslip(['compile', 'take.mid', '-m', 'horns.yaml', '--in-place', '--watch'], {
      cwd,
    });
    expect(status).toBe(2);
    expect(err).toContain('--in-place');
    expect(keyslip(['check', '-', '--watch'], { cwd }).status).toBe(2);
  });
});
