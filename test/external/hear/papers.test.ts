import { readFileSync, symlinkSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { keyslip, scratchFolder } from '../../support/cli.js';

const [, section = ''] =
  /\n## Hearing it\n([\s\S]*?)\n## /u.exec(readFileSync('maps/README.md', 'utf8')) ?? [];
const commands = section.split('\n').filter((line) => line.startsWith('keyslip '));

/** They need a bank where Debian puts it, which no other test does. */
describe('what the handbook says of hearing', () => {
  const cwd = scratchFolder();
  symlinkSync(resolve('maps'), join(cwd, 'maps'));

  it('has commands', () => {
    expect(commands.length).toBeGreaterThanOrEqual(4);
  });

  for (const command of commands)
    it(`runs: ${command}`, () => {
      const { status, out, err } = keyslip(command.split(' ').slice(1), { cwd });
      expect({ status, isWrong: /error|warning/u.test(err) }).toEqual({ status: 0, isWrong: false });
      expect(out.length).toBeGreaterThan(0);
    });
});
