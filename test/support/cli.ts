import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll } from 'vitest';
import { warm } from './warm.js';

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

/**
 * Runs a command line as the program does: in a process of its own where it reads standard input or is asked for an
 * environment, and else in one that many of them share.
 */
export function keyslip(words: readonly string[], options: RunOptions = {}): Ran {
  if (options.input !== undefined || options.env !== undefined) return keyslipAlone(words, options);
  const { status, out, err } = warm(words, options.cwd ?? process.cwd());
  return { status, out: out.toString(), err, bytes: new Uint8Array(out) };
}

/** Runs the built program as a process. */
export function keyslipAlone(words: readonly string[], { cwd, input = '', env = {} }: RunOptions = {}): Ran {
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
