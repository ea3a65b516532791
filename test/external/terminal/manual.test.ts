import { spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { keyslip } from '../../support/cli.js';

const page = keyslip(['manual']).out;
const groff = (input: string, ...options: readonly string[]) =>
  spawnSync('groff', ['-man', '-ww', ...options], { input, encoding: 'utf8' });

describe('the manual page', () => {
  it('has nothing that groff warns of', () => {
    const { status, stderr } = groff(page, '-Tutf8', '-z');
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    // It would: of a macro that man(7) does not have.
    expect(groff(`${page}.XYZ nothing\n`, '-Tutf8', '-z').stderr).toContain('XYZ');
  });

  it('is typeset whole: every option of every command is on it', () => {
    // Without bold, underlining and hyphenation, on one long line.
    const { stdout } = groff(`.hy 0\n${page}`, '-Tutf8', '-P-cbou', '-rLL=400n', '-rHY=0');
    const help = keyslip(['help', 'compile']).out;
    const options = [...help.matchAll(/^ +(?:-\w, )?(--[a-z-]+)/gmu)].map(([, name = '']) => name);
    expect(options.length).toBeGreaterThan(10);
    for (const option of options) expect(stdout).toContain(option);
    expect(stdout).toContain('EXIT STATUS');
  });
});
