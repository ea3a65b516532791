import { constants } from 'node:fs';
import { type FileHandle, open, stat } from 'node:fs/promises';
import { setTimeout as sleep } from 'node:timers/promises';
import { codeOf } from './problems.js';

/** How long somebody is waited for who writes to a pipe. Unit: ms. */
const patience = 1000;

/** Opens a file to read; a pipe without waiting for whoever writes to it, which might be for ever. */
export async function openInput(path: string): Promise<FileHandle> {
  const isPipe = (await stat(path)).isFIFO();
  return open(path, isPipe ? constants.O_RDONLY | constants.O_NONBLOCK : 'r');
}

/**
 * Waits until there is something to read from a pipe that was opened so, and reads some of it.
 *
 * @param isBegun whether somebody is known to write to it: its end is an end then
 * @returns the number of bytes; 0 at the end, undefined where nobody writes to it
 */
export async function readPipe(
  handle: FileHandle,
  block: Uint8Array,
  isBegun: boolean,
): Promise<number | undefined> {
  for (let alone = 0; ; ) {
    try {
      const { bytesRead } = await handle.read(block, 0, block.length, null);
      if (bytesRead > 0 || isBegun) return bytesRead;
      if (alone >= patience) return undefined;
      alone += 20;
    } catch (error) {
      if (codeOf(error) !== 'EAGAIN') throw error;
    }
    await sleep(20);
  }
}
