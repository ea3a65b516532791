import type { Stats } from 'node:fs';
import { type FileHandle, readdir } from 'node:fs/promises';
import { basename, dirname } from 'node:path';
import { nearest, type Outcome } from '../../diagnostics/index.js';
import { type Io, UsageError } from '../io.js';
import { openInput, readPipe } from './pipe.js';
import { fileProblem, readProblem } from './problems.js';

/**
 * Reads a file, or standard input for `-`. Reads at most one byte more than `limit`, so that a file over the limit
 * can be told from one at it without being read whole.
 */
export async function readInput(path: string, limit: number, io: Io): Promise<Outcome<Uint8Array>> {
  if (path === '-') return readStdin(limit, io);
  const instead = io.instead?.(path);
  if (instead) return { value: instead, diagnostics: [] };
  io.opening?.(path);
  let handle: FileHandle | undefined;
  try {
    handle = await openInput(path);
    const before = await handle.stat();
    if (before.isDirectory()) return unreadable(path, 'it is a folder, not a file');
    const bytes = await readUpTo(handle, limit + 1, before);
    if (!bytes) return unreadable(path, 'nobody writes to it', 'it is a pipe: begin what writes to it first');
    const after = await handle.stat();
    if (before.isFile() && (after.size !== before.size || after.mtimeMs !== before.mtimeMs))
      return unreadable(
        path,
        'it was changed while it was read',
        'run the command again when the file is at rest',
      );
    io.read?.(path, bytes);
    io.note?.(`read ${path}: ${bytes.length} bytes`);
    return { value: bytes, diagnostics: [] };
  } catch (error) {
    return unreadable(path, fileProblem(error), await neighbour(path));
  } finally {
    // What was read is whole, whatever closing says.
    await handle?.close().catch(() => {});
  }
}

/** Grows as it reads: a pipe or a device does not know its size. */
async function readUpTo(handle: FileHandle, most: number, found: Stats): Promise<Uint8Array | undefined> {
  const blocks: Uint8Array[] = [];
  let total = 0;
  while (total < most) {
    const block = new Uint8Array(Math.min(most - total, Math.max(1 << 16, found.size + 1 - total)));
    const bytesRead = found.isFIFO()
      ? await readPipe(handle, block, total > 0)
      : (await handle.read(block, 0, block.length, null)).bytesRead;
    if (bytesRead === undefined) return undefined;
    if (bytesRead === 0) break;
    blocks.push(block.subarray(0, bytesRead));
    total += bytesRead;
  }
  const [only] = blocks;
  if (only && blocks.length === 1) return only;
  const bytes = new Uint8Array(total);
  let at = 0;
  for (const block of blocks) {
    bytes.set(block, at);
    at += block.length;
  }
  return bytes;
}

/** A file of nearly that name beside it. */
async function neighbour(path: string): Promise<string | undefined> {
  const names: readonly string[] = await readdir(dirname(path)).catch(() => []);
  const name = names.includes(basename(path)) ? undefined : nearest(basename(path), names.slice(0, 1000));
  return name === undefined ? undefined : `did you mean "${name}"?`;
}

/** Standard input is held to the limit as files are. */
async function readStdin(limit: number, io: Io): Promise<Outcome<Uint8Array>> {
  try {
    return { value: (await io.stdin(limit)).subarray(0, limit + 1), diagnostics: [] };
  } catch (error) {
    if (error instanceof UsageError) throw error;
    return unreadable('-', fileProblem(error));
  }
}

function unreadable(file: string, problem: string, hint?: string): Outcome<never> {
  return { value: undefined, diagnostics: [readProblem(file, problem, hint)] };
}
