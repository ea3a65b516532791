import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readMidi } from '../../src/midi/read/index.js';
import { controllerOf } from '../cue/support.js';
import { scratchFolder } from '../support/cli.js';
import { runHere } from '../support/in-process.js';

const folder = scratchFolder();
cpSync('maps/demo/skerry-point.mid', join(folder, 'in.mid'));
const horns = readFileSync('maps/saltmarsh-horns.yaml', 'utf8');
const measured = (name: string, level: string) =>
  writeFileSync(
    join(folder, name),
    horns.replace(/^family: .*$/mu, (line) => `${line}\n${level}`),
  );
measured('loud.yaml', 'reference-level: -24');
measured('soft.yaml', 'reference-level: -36');
writeFileSync(
  join(folder, 'night.cue.yaml'),
  `format: keyslip-cue/1
source: in.mid
output: out.mid
parts:
  - {name: Horns, track: Horns, map: loud.yaml, level: -2}
  - {name: Trumpets, track: Trumpets, map: soft.yaml, level: -2}
`,
);
const cue = join(folder, 'night.cue.yaml');

async function volume(...words: string[]): Promise<number | undefined> {
  const output = join(folder, 'result.mid');
  const { status } = await runHere(['cue', cue, '-o', output, ...words]);
  expect(status).toBe(0);
  const { value } = readMidi(readFileSync(output), output);
  const track = value?.tracks.find(({ name }) => name === 'Horns');
  return controllerOf(track, 7)[0]?.[1];
}

describe('a cue of measured libraries', () => {
  it('gives a part the same level whether it is compiled alone or with the others', async () => {
    const whole = await volume();
    // 14 dB softer than it is: 127 · 10^(−14/40).
    expect(whole).toBe(Math.round(127 * 10 ** (-14 / 40)));
    expect(await volume('--part', 'Horns')).toBe(whole);
  });

  it('tells the balance in LUFS', async () => {
    const { out } = await runHere(['inspect', cue, '--json']);
    const { balance } = JSON.parse(out) as {
      balance: { sections: { loudness: number; referenceLevel?: number }[] }[];
    };
    const sections = balance.flatMap((bar) => bar.sections);
    expect(sections.length).toBeGreaterThan(0);
    for (const { loudness, referenceLevel } of sections) {
      expect([-24, -36]).toContain(referenceLevel);
      expect(loudness).toBeLessThan(-30);
    }
  });
});
