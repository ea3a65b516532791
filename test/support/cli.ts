import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll } from 'vitest';

/** The built program. */
export const program = resolve('dist/keyslip.js');

export interface Ran {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
  readonly bytes: Uint8Array;
}

export interface RunOptions {
  readonly cwd?: string;
  readonly input?: Uint8Array | string;
  readonly env?: Readonly<Record<string, string>>;
}

/** Runs the real program as a child process. */
export function keyslip(words: readonly string[], { cwd, input = '', env = {} }: RunOptions = {}): Ran {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...words], {
    cwd,
    input,
    env: { ...process.env, ...env },
    maxBuffer: 1 << 28,
    timeout: 60_000,
  });
  return { status, out: stdout.toString(), err: stderr.toString(), bytes: new Uint8Array(stdout) };
}

/** A folder of its own for a test file, taken away after its tests. */
export function scratchFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'keyslip-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}
