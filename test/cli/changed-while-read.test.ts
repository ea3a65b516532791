import { appendFileSync, writeFileSync } from 'node:fs';
import { open } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { readInput } from '../../src/cli/files/read.js';
import type { Io } from '../../src/cli/io.js';
import { scratchFolder } from '../support/cli.js';

const path = join(scratchFolder(), 'growing.mid');
const io: Io = { stdin: async () => new Uint8Array(), out: () => {}, err: () => {}, color: false };

describe('an input that changes while it is read', () => {
  it('is an error, not half of the one and half of the other', async () => {
    writeFileSync(path, 'MThd');
    const handle = await open(path, 'r');
    const prototype = Object.getPrototypeOf(handle) as { read: (...args: unknown[]) => Promise<unknown> };
    await handle.close();
    const read = prototype.read;
    const spy = vi.spyOn(prototype, 'read').mockImplementationOnce(function (
      this: unknown,
      ...args: unknown[]
    ) {
      appendFileSync(path, 'more');
      return read.apply(this, args);
    });
    const { value, diagnostics } = await readInput(path, 1000, io);
    spy.mockRestore();
    expect(value).toBeUndefined();
    expect(diagnostics).toMatchObject([
      { code: 'cannot-read', message: expect.stringContaining('changed while it was read') },
    ]);
  });

  it('reads what is at rest whole', async () => {
    writeFileSync(path, 'abc');
    expect((await readInput(path, 1000, io)).value).toEqual(new Uint8Array([97, 98, 99]));
    expect((await readInput(path, 2, io)).value).toHaveLength(3);
  });
});
