import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { scratchFolder } from '../support/cli.js';
import { runHere } from '../support/in-process.js';
import { bytesOf, trackOf } from '../support/song.js';

const cwd = scratchFolder();
const at = (name: string) => join(cwd, name);
const notes = [0, 480, 960].map((tick) => ({ tick, end: tick + 300, pitch: 50 }));
writeFileSync(at('take.mid'), bytesOf([trackOf(notes, [], 'Horns\u001b[2J')]));
writeFileSync(at('long.mid'), longTake(9000));
writeFileSync(at('horns.yaml'), readFileSync('maps/saltmarsh-horns.yaml'));
const compile = (take: string) => ['compile', at(take), '--map', at('horns.yaml'), '-o', at('out.mid')];

/** A file of one track "Horns" with so many notes, as the standard writes it (RP-001): a note of 64 ticks, 64 of rest. */
function longTake(count: number): Uint8Array {
  const name = [0, 0xff, 0x03, 5, ...Buffer.from('Horns')];
  const note = [64, 0x90, 50, 90, 64, 0x80, 50, 0];
  const events = Buffer.from([
    ...name,
    ...Array.from({ length: count }, () => note).flat(),
    0,
    0xff,
    0x2f,
    0,
  ]);
  const header = Buffer.from([...Buffer.from('MThd'), 0, 0, 0, 6, 0, 0, 0, 1, 0, 96, ...Buffer.from('MTrk')]);
  const length = Buffer.alloc(4);
  length.writeUInt32BE(events.length);
  return new Uint8Array(Buffer.concat([header, length, events]));
}

describe('--verbose', () => {
  it('says on standard error what was read and written, and how long each stage took', async () => {
    const words = [...compile('take.mid'), '--prove'];
    const plain = await runHere(words);
    const { status, out, err } = await runHere([...words, '--verbose']);
    expect({ status, out }).toEqual({ status: 0, out: plain.out });
    const lines = err.trimEnd().split('\n');
    for (const line of lines) expect(line).toMatch(/^ *\d+(\.\d+)? m?s {2}\S/u);
    const told = lines.map((line) => line.replace(/^ *\S+ \S+ {2}/u, '').replaceAll(`${cwd}/`, ''));
    const size = (name: string) => readFileSync(at(name)).length;
    expect(told).toEqual([
      `read take.mid: ${size('take.mid')} bytes`,
      'understood the music take.mid',
      `read horns.yaml: ${size('horns.yaml')} bytes`,
      'understood the map horns.yaml',
      ...['measuring', 'deciding', 'looking for collisions', 'moving', 'switching', 'writing'].map(
        (doing) => `part 1 of 1: Horns\\u{1b}[2J, ${doing}`,
      ),
      `part 1 of 1: out.mid, proving`,
      `written out.mid: ${size('out.mid')} bytes`,
    ]);
    expect(plain.err).toBe('');
  });
});

describe('progress of one long part', () => {
  it('is shown on a terminal, also within the part, and is gone in the end', async () => {
    const shown: string[] = [];
    // Every look at the clock is a second later, so that any machine is slow.
    let now = 0;
    const clock = vi.spyOn(performance, 'now').mockImplementation(() => {
      now += 1000;
      return now;
    });
    const { status, out } = await runHere(compile('long.mid'), {
      progress: (line) => void shown.push(line),
    });
    clock.mockRestore();
    expect({ status, isThere: existsSync(at('out.mid')) }, out).toEqual({ status: 0, isThere: true });
    const deciding = shown.filter((line) => line.startsWith('part 1 of 1: Horns, deciding: '));
    expect(deciding.map((line) => line.slice(line.lastIndexOf(':') + 2))).toEqual([
      ...['0 %', '45 %', '91 %'],
    ]);
    expect(shown.at(-1)).toBe('');
    shown.length = 0;
    for (const option of ['--quiet', '--json'])
      await runHere([...compile('long.mid'), option], { progress: (line) => void shown.push(line) });
    expect(shown).toEqual([]);
  });
});
