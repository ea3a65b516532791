import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { program, scratchFolder } from '../../support/cli.js';

/** The binaries that .config/external.sh has found or installed. */
const nodes = (process.env.KEYSLIP_NODES ?? '').split(':').filter((path) => path !== '');
const map = 'maps/saltmarsh-horns.yaml';
const take = 'maps/demo/last-boat.mid';
const cue = 'maps/demo/skerry-point.cue.yaml';
const commands = [
  `check ${map} ${cue}`,
  `compile ${take} --map ${map} -o boat.mid --report boat.json`,
  `compile ${take} --map ${map} -o timed.mid --pull 60% --roll 18ms --loosen 8ms --compensate`,
  `cue ${cue} -o cue.mid --report cue.json`,
  `sheet ${cue} -o cue.html`,
  `sheet ${take} --map ${map} -o boat.musicxml`,
  `explain ${take} --map ${map} --json`,
  `inspect ${cue} --json`,
  `prove boat.mid --map ${map} --against ${take}`,
];

const scratch = scratchFolder();

/** What each command says, and the bytes of all that they write. */
function allOf(node: string): Readonly<Record<string, string>> {
  const cwd = mkdtempSync(join(scratch, 'node-'));
  cpSync('maps', join(cwd, 'maps'), { recursive: true });
  const said = commands.map((command) => {
    const { status, stdout, stderr } = spawnSync(node, [program, ...command.split(' ')], {
      cwd,
      encoding: 'utf8',
      maxBuffer: 1 << 26,
    });
    return [command, `${status}\n${stdout}${stderr}`];
  });
  const written = readdirSync(cwd)
    .filter((name) => name !== 'maps')
    .map((name) => [
      name,
      createHash('sha256')
        .update(readFileSync(join(cwd, name)))
        .digest('hex'),
    ]);
  return Object.fromEntries([...said, ...written]) as Record<string, string>;
}

describe('the program under other versions of Node.js', () => {
  if (nodes.length === 0) it.skip('KEYSLIP_NODES names none: nothing is compared', () => {});
  const here = nodes.length === 0 ? {} : allOf(process.execPath);

  it.each(nodes.map((node) => [node]))('says and writes the same, to the byte: %s', (node) => {
    const version = spawnSync(node, ['--version'], { encoding: 'utf8' }).stdout;
    expect(version).toMatch(/^v(?:2[0-9])\./u);
    const there = allOf(resolve(node));
    for (const command of commands) expect([command, here[command]?.slice(0, 1)]).toEqual([command, '0']);
    expect(there).toEqual(here);
  });
});
