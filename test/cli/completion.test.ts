import { spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { scratchFolder } from '../support/cli.js';
import { runHere } from '../support/in-process.js';

const cwd = scratchFolder();
const { out: bash } = await runHere(['completion', 'bash']);
const { out: help } = await runHere(['help']);
const names = [
  ...help
    .slice(help.indexOf('Commands:'), help.indexOf('Examples:'))
    .matchAll(/^ {2}([a-z]+)(?= .*? {2}\S|$)/gmu),
].map(([, name = '']) => name);
writeFileSync(join(cwd, 'keyslip.bash'), bash);
writeFileSync(join(cwd, 'two words.mid'), '');
mkdirSync(join(cwd, 'takes'));

/** What bash itself would offer for the last of these words. */
function offered(words: readonly string[]): readonly string[] {
  const code = `source ./keyslip.bash; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _keyslip; printf '%s\\n' "\${COMPREPLY[@]}"`;
  const { stdout, stderr } = spawnSync('bash', ['-c', code, 'bash', 'keyslip', ...words], {
    cwd,
    encoding: 'utf8',
  });
  expect(stderr).toBe('');
  return stdout.split('\n').filter((line) => line !== '');
}

describe('completion in bash', () => {
  it('is a script that bash can read', () => {
    const { status, stderr } = spawnSync('bash', ['-n', 'keyslip.bash'], { cwd, encoding: 'utf8' });
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
  });

  it('offers the commands that help lists', () => {
    expect(names.length).toBeGreaterThan(15);
    expect(offered([''])).toEqual(expect.arrayContaining(names));
    expect(offered(['comp'])).toEqual(['compile', 'compare', 'completion']);
    expect(offered(['help', 'che'])).toEqual(['check']);
  });

  it('offers options, the values that they may have, and files', () => {
    expect(offered(['check', '--me'])).toEqual(['--merged']);
    expect(offered(['compile', 'take.mid', '--restate', '8', '--ma'])).toEqual([
      '--max-midi',
      '--max-events',
      '--map',
      '--max-map',
    ]);
    expect(offered(['inspect', '--per', ''])).toEqual(['beat', 'bar']);
    expect(offered(['schema', 'c'])).toEqual(['cue']);
    expect(offered(['completion', 'z'])).toEqual(['zsh']);
    expect(offered(['compile', 'ta'])).toEqual(['takes']);
    expect(offered(['compile', 'x.mid', '-o', 'ta'])).toEqual(['takes']);
    expect(offered(['--no-color', 'check', '--str'])).toEqual(['--strict']);
  });
});

describe('completion in other shells', () => {
  it('has every command with its options', async () => {
    for (const shell of ['zsh', 'fish']) {
      const { status, out } = await runHere(['completion', shell]);
      expect(status).toBe(0);
      for (const name of names) expect(out).toContain(name);
      for (const word of ['merged', 'restate', 'beat bar', 'no-color']) expect(out).toContain(word);
    }
  });

  it('is not written for shells that are not known', async () => {
    const { status, err } = await runHere(['completion', 'bsh']);
    expect([status, err]).toEqual([
      2,
      'keyslip: error [command-line]: <shell> cannot be "bsh"\n    did you mean "bash"?\n',
    ]);
  });
});

describe('the manual', () => {
  it('names every command and option, and no line is a request by mistake', async () => {
    const { status, out } = await runHere(['manual']);
    expect(status).toBe(0);
    for (const name of names) expect(out).toMatch(new RegExp(`^\\.SS keyslip ${name}\\b`, 'mu'));
    expect(out).toContain('\\fB\\-\\-restate\\fR');
    expect(out).toMatch(/^[\n -~]*$/u);
    // man(7): these are all the macros that are used.
    for (const [line] of out.matchAll(/^[.'].*$/gmu)) expect(line).toMatch(/^\.(TH|SH|SS|TP|PP|B|I)\b/u);
  });
});
