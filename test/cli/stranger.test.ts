import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { keyslip, scratchFolder } from '../support/cli.js';

/** A cue as a stranger may send it, with an output of its own. */
function cueFolder(output: string): string {
  const folder = scratchFolder();
  cpSync('maps/demo/last-boat.mid', join(folder, 'take.mid'));
  cpSync('maps/saltmarsh-horns.yaml', join(folder, 'horns.yaml'));
  writeFileSync(
    join(folder, 'scene.cue.yaml'),
    `format: keyslip-cue/1\nsource: take.mid\noutput: ${output}\nparts:\n  - {name: Horns, track: Horns, map: horns.yaml}\n`,
  );
  return folder;
}

const compile = (folder: string, ...words: readonly string[]) =>
  keyslip(['cue', 'scene.cue.yaml', ...words], { cwd: folder });

describe('a cue from a stranger', () => {
  it.each(['.git/hooks/pre-commit', '.profile', 'music/.hidden/out.mid', 'out.sh', 'out.mid.exe', '"-"'])(
    'writes nothing to %s',
    (output) => {
      const folder = cueFolder(output);
      const { status, err } = compile(folder);
      expect([status, err.includes('[output-not-music]')]).toEqual([1, true]);
      expect(existsSync(join(folder, output))).toBe(false);
      expect(keyslip(['check', 'scene.cue.yaml'], { cwd: folder }).err).toContain('[output-not-music]');
    },
  );

  it('does not get to a hidden folder through a link', () => {
    const folder = cueFolder('music/out.mid');
    mkdirSync(join(folder, '.git'));
    symlinkSync('.git', join(folder, 'music'));
    expect(compile(folder).err).toContain('[output-not-music]');
    expect(existsSync(join(folder, '.git/out.mid'))).toBe(false);
  });

  it('replaces music, and nothing else unless it is told to', () => {
    const folder = cueFolder('out.mid');
    writeFileSync(join(folder, 'out.mid'), '#!/bin/sh\n');
    expect(compile(folder).err).toContain('[output-kept]');
    expect(readFileSync(join(folder, 'out.mid'), 'utf8')).toBe('#!/bin/sh\n');
    expect(compile(folder, '--replace').status).toBe(0);
    expect(compile(folder).status).toBe(0);
  });

  it('leaves no right to run what it wrote, and keeps the other rights', () => {
    const folder = cueFolder('out.mid');
    expect(compile(folder).status).toBe(0);
    chmodSync(join(folder, 'out.mid'), 0o4750);
    expect(compile(folder).status).toBe(0);
    expect(statSync(join(folder, 'out.mid')).mode & 0o7777).toBe(0o640);
  });
});
