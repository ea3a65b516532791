import { spawn } from 'node:child_process';
import { readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { keyslip, program, scratchFolder } from '../support/cli.js';
import { bytesOf, trackOf } from '../support/song.js';

const cwd = scratchFolder();
const put = (name: string, content: Uint8Array | string) => writeFileSync(join(cwd, name), content);
const take = (pitch: number) => bytesOf([trackOf([{ tick: 480, end: 700, pitch }], [], 'Horns')]);
put('take.mid', take(50));
put('horns.yaml', readFileSync('maps/saltmarsh-horns.yaml'));
const cue = (map: string) =>
  `format: keyslip-cue/1\nsource: take.mid\noutput: out.mid\nparts:\n  - {name: Horns, track: 1, map: ${map}}\n`;
put('night.cue.yaml', cue('horns.yaml'));

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
    }
  }, 60_000);

  it('needs files', () => {
    expect(keyslip(['cue', '-', '--watch'], { cwd }).status).toBe(2);
    expect(keyslip(['cue', 'night.cue.yaml', '-o', '-', '--watch'], { cwd }).status).toBe(2);
    expect(keyslip(['cue', 'night.cue.yaml', '--part', 'X', '--watch'], { cwd }).status).toBe(2);
  });
});
