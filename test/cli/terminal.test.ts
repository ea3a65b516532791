import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { keyslip, program, scratchFolder } from '../support/cli.js';
import { runHere } from '../support/in-process.js';
import { bytesOf, trackOf } from '../support/song.js';

const cwd = scratchFolder();
const at = (name: string) => join(cwd, name);
writeFileSync(at('take.mid'), bytesOf([trackOf([{ tick: 480, end: 700, pitch: 50 }], [], 'Horns')]));
writeFileSync(at('horns.yaml'), readFileSync('maps/saltmarsh-horns.yaml'));
writeFileSync(at('broken.yaml'), 'format: keyslip-map/1\nnothing: 1\n');
const compile = ['compile', at('take.mid'), '--map', at('horns.yaml'), '-o', '-'];

describe('MIDI to standard output', () => {
  it('is refused where that is a terminal, with a hint, and nothing is written', async () => {
    const report = at('report.json');
    const { status, err, bytes } = await runHere([...compile, '--report', report], { isOutTerminal: true });
    expect([status, bytes.length, existsSync(report)]).toEqual([2, 0, false]);
    expect(err).toBe(
      'keyslip: error [command-line]: standard output is a terminal, and the result is no text\n' +
        '    name a file with -o OUT.mid, or lead it on with > OUT.mid or |\n',
    );
  });

  it('goes on to files and pipes; text goes to a terminal too', async () => {
    const { status, bytes } = await runHere(compile, { isOutTerminal: false });
    expect(status).toBe(0);
    expect(Buffer.from(bytes[0] ?? []).subarray(0, 4)).toEqual(Buffer.from('MThd'));
    const sheet = ['sheet', at('take.mid'), '--map', at('horns.yaml'), '-o', '-'];
    expect(await runHere(sheet, { isOutTerminal: true })).toMatchObject({ status: 0 });
  });
});

describe('colours', () => {
  const sequence = '\u001b[';
  /** Whether node itself would colour what it writes to a standard error of that kind; its rules are the measure. */
  const nodeColours = (env: Readonly<Record<string, string>>) => {
    const code = "require('util').styleText('red', 'x', { stream: process.stderr }) !== 'x'";
    const { stdout } = spawnSync(process.execPath, ['-p', code], { env: { ...process.env, ...env } });
    return stdout.toString().includes('true');
  };

  for (const [env, expected] of [
    [{ FORCE_COLOR: '1', NO_COLOR: '' }, true],
    [{ FORCE_COLOR: '0' }, false],
    [{ FORCE_COLOR: '', TERM: 'dumb' }, true],
    [{ TERM: 'dumb' }, false],
  ] as const)
    it(`follow the rules of node: ${JSON.stringify(env)}`, () => {
      const { status, err } = keyslip(['check', at('broken.yaml')], { env });
      expect(status).toBe(1);
      expect(err.includes(sequence)).toBe(expected);
      expect(nodeColours(env)).toBe(expected);
    });

  it('are left out with --no-color, before or after the command, of usage errors too', async () => {
    const broken = ['check', at('broken.yaml')];
    expect((await runHere(broken, { color: true })).err).toContain(sequence);
    expect((await runHere(['chekc'], { color: true })).err).toContain(sequence);
    for (const words of [
      [...broken, '--no-color'],
      ['--no-color', ...broken],
      ['chekc', '--no-color'],
    ]) {
      const { err } = await runHere(words, { color: true });
      expect(err).toMatch(/error \[/u);
      expect(err).not.toContain(sequence);
    }
  });

  it('are in no file that is asked for', () => {
    const env = { FORCE_COLOR: '1' };
    const { out } = keyslip(['explain', at('take.mid'), '--map', at('horns.yaml')], { env });
    expect(out).not.toContain(sequence);
    expect(existsSync(program)).toBe(true);
  });
});
