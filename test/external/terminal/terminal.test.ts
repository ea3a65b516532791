import { spawnSync } from 'node:child_process';
import { copyFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { program, scratchFolder } from '../../support/cli.js';

const cwd = scratchFolder();
writeFileSync(join(cwd, 'broken.yaml'), 'format: keyslip-map/1\nnothing: 1\n');
copyFileSync('maps/saltmarsh-horns.yaml', join(cwd, 'horns.yaml'));
copyFileSync('maps/demo/last-boat.mid', join(cwd, 'take.mid'));
const { NO_COLOR, FORCE_COLOR, COLORTERM, CI, ...surroundings } = process.env;

/** Runs the program on a terminal of its own, which script(1) of util-linux makes; what it was sent. */
function onTerminal(words: string, env: Readonly<Record<string, string>>) {
  const command = `"${process.execPath}" "${program}" ${words}`;
  const { status, stdout } = spawnSync('script', ['-qec', command, '/dev/null'], {
    cwd,
    env: { ...surroundings, TERM: 'xterm-256color', ...env },
    // A terminal that has no more input ends: script(1) waits for neither.
    stdio: ['ignore', 'pipe', 'inherit'],
    timeout: 60_000,
  });
  return { status, sent: stdout.toString().replaceAll('\r\n', '\n') };
}

// ECMA-48, 5.4 and 8.3.117: a control sequence; SGR, which colours, ends in m.
const sequence = '\u001b[';
const isColoured = (sent: string) => sent.includes(`${sequence}31m`);

describe('on a terminal', () => {
  // NO_COLOR: https://no-color.org; the others as Node.js documents getColorDepth of tty.WriteStream.
  it.each([
    ['is coloured', {}, '', true],
    ['NO_COLOR', { NO_COLOR: '1' }, '', false],
    ['TERM=dumb', { TERM: 'dumb' }, '', false],
    ['FORCE_COLOR=0', { FORCE_COLOR: '0' }, '', false],
    ['FORCE_COLOR=1 on a dumb terminal', { FORCE_COLOR: '1', TERM: 'dumb' }, '', true],
    ['--no-color', {}, '--no-color', false],
    ['--no-color before FORCE_COLOR', { FORCE_COLOR: '1' }, '--no-color', false],
  ] as const)('what is wrong: %s', (_, env, option, expected) => {
    const { status, sent } = onTerminal(`check broken.yaml ${option}`, env);
    expect([status, isColoured(sent)], sent).toEqual([1, expected]);
    expect(sent).toContain('[missing-key]');
    if (!expected) expect(sent).not.toContain('\u001b');
  });

  it('shows progress in one line and clears it; a dumb terminal is sent no sequence at all', () => {
    const words = 'sheet take.mid --map horns.yaml -o page.html';
    const { status, sent } = onTerminal(words, {});
    expect(status).toBe(0);
    // ECMA-48, 8.3.41: EL erases to the end of the line.
    expect(sent.split('\n').filter((line) => line.includes('take.mid →'))).toHaveLength(1);
    expect(sent.endsWith('bars\n'), sent).toBe(true);
    const dumb = onTerminal(words, { TERM: 'dumb' });
    expect([dumb.status, dumb.sent.includes('\u001b')]).toEqual([0, false]);
  });

  it('is not sent MIDI', () => {
    const { status, sent } = onTerminal('compile take.mid --map horns.yaml -o -', {});
    expect([status, sent.includes('MThd')]).toEqual([2, false]);
    expect(sent).toContain('standard output is a terminal');
  });
});
