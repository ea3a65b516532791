import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { run } from '../../src/cli/program.js';
import type { PlacedSwitches } from '../../src/compile/switching/index.js';
import { Insertions } from '../../src/midi/index.js';
import { scratchFolder } from '../support/cli.js';
import { putIn } from '../support/message.js';

/** A compiler with a fault: it loses the first switch of every part. */
vi.mock(import('../../src/compile/switching/index.js'), async (original) => {
  const { placeSwitches, ...rest } = await original();
  return {
    ...rest,
    placeSwitches: (...words: Parameters<typeof placeSwitches>): PlacedSwitches => {
      const switched = placeSwitches(...words);
      const insertions = new Insertions();
      for (const { before, tick, rank, message } of putIn(switched.insertions).slice(1))
        insertions.put(before, tick, rank, message);
      return { ...switched, insertions };
    },
  };
});

describe('a result that the model of the library does not hear right', () => {
  it('is not written, and the old file stays (not-proved)', async () => {
    const output = join(scratchFolder(), 'out.mid');
    writeFileSync(output, 'old');
    let said = '';
    const io = {
      stdin: async () => new Uint8Array(),
      out: () => {},
      err: (text: string) => {
        said += text;
      },
      color: false,
    };
    const words = [
      'compile',
      'maps/demo/last-boat.mid',
      '--map',
      'maps/saltmarsh-horns.yaml',
      '-o',
      output,
      '--prove',
    ];
    expect(await run(words, io)).toBe(1);
    expect(said).toContain('[not-proved]');
    expect(said).toContain('bar 1 beat 1');
    expect(readFileSync(output, 'utf8')).toBe('old');
  });
});
