import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { scratchFolder } from '../support/cli.js';

describe('a program that was installed without the engraver', () => {
  const folder = scratchFolder();
  cpSync('dist', join(folder, 'dist'), { recursive: true });
  writeFileSync(join(folder, 'package.json'), '{"type": "module"}');
  const sheet = (output: string) => {
    const words = [
      'sheet',
      resolve('maps/demo/last-boat.mid'),
      '--map',
      resolve('maps/saltmarsh-horns.yaml'),
    ];
    const { status, stderr } = spawnSync(
      process.execPath,
      [join(folder, 'dist/keyslip.js'), ...words, '-o', output],
      { cwd: folder },
    );
    return { status, err: stderr.toString() };
  };

  it('says so where a sheet is asked for', () => {
    const { status, err } = sheet('sheet.html');
    expect(status).toBe(1);
    expect(err).toMatch(/error \[no-library\]: .*verovio.* is not installed\n {4}npm install verovio/u);
    expect(existsSync(join(folder, 'sheet.html'))).toBe(false);
  });

  it('writes the score for a copyist all the same', () => {
    expect(sheet('score.musicxml').status).toBe(0);
    expect(readFileSync(join(folder, 'score.musicxml'), 'utf8')).toContain('<score-partwise');
  });
});
