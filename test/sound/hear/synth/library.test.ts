import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, readdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { wavBytes } from '../../../../src/sound/signal/index.js';
import { scratchFolder } from '../../../support/cli.js';
import { testBank } from '../support/bank.js';

describe('a program that was installed without what makes and compresses sound', () => {
  const folder = scratchFolder();
  cpSync('dist', join(folder, 'dist'), { recursive: true });
  mkdirSync(join(folder, 'node_modules'));
  symlinkSync(resolve('node_modules/verovio'), join(folder, 'node_modules/verovio'));
  writeFileSync(join(folder, 'package.json'), '{"type": "module"}');
  writeFileSync(join(folder, 'bank.sf2'), testBank());
  const silent = new Float32Array(44_100);
  writeFileSync(join(folder, 'sound.wav'), wavBytes({ sampleRate: 44_100, bits: 16 }, [silent, silent]));
  const before = readdirSync(folder);
  const music = [resolve('maps/demo/last-boat.mid'), '--map', resolve('maps/saltmarsh-horns.yaml')];

  it.each([
    ['hearing', 'spessasynth_core', ['hear', ...music, '--bank', 'bank.sf2', '-o', 'out.wav']],
    ['compressing', 'wasm-media-encoders', ['sheet', ...music, '--sound', 'sound.wav', '-o', 'out.html']],
  ])('tells in a sentence what to install for %s', (_, name, words) => {
    const { status, stderr } = spawnSync(process.execPath, ['dist/keyslip.js', ...words], { cwd: folder });
    expect(status).toBe(1);
    expect(stderr.toString()).toContain('error [no-library]: ');
    expect(stderr.toString()).toMatch(new RegExp(`: .*${name}.*\\n {4}npm install ${name}`, 'u'));
    expect(readdirSync(folder)).toEqual(before);
  });
});
