import { randomBytes } from 'node:crypto';
import { openSync, readSync, unlinkSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Block, Spool } from '../sound/index.js';
import { fileProblem, writeFailure } from './files/problems.js';
import { closeQuietly } from './files/streams.js';
import { removeQuietly } from './files/temporary.js';

/** A spool in a file of the system's temporary folder. It is gone when it is closed, or the program ends. */
export interface FileSpool extends Spool {
  close(): void;
}

/**
 * Keeps a sound on disk: at 48 kHz a minute of it is 23 MB.
 *
 * @throws CannotWrite, as its functions do
 */
export function fileSpool(): FileSpool {
  const path = join(tmpdir(), `keyslip-${randomBytes(8).toString('hex')}.tmp`);
  const kept = <T>(action: () => T): T => {
    try {
      return action();
    } catch (error) {
      const hint = 'sound is kept in the folder for temporary files first: TMPDIR names another one';
      throw writeFailure(path, fileProblem(error), hint);
    }
  };
  const descriptor = kept(() => openSync(path, 'wx+', 0o600));
  let isNamed = true;
  try {
    // Where the system allows it, the file loses its name at once, so that nothing is left however the program ends.
    unlinkSync(path);
    isNamed = false;
  } catch {
    // It is taken away when it is closed.
  }
  const lengths: number[] = [];
  let end = 0;
  return {
    write({ left, right }) {
      for (const side of [left, right]) {
        const bytes = new Uint8Array(side.buffer, side.byteOffset, side.byteLength);
        for (let at = 0; at < bytes.length; ) {
          const written = kept(() => writeSync(descriptor, bytes, at, bytes.length - at, end));
          at += written;
          end += written;
        }
      }
      lengths.push(left.length);
    },
    *read() {
      let position = 0;
      for (const length of lengths) {
        const block: Block = { left: new Float32Array(length), right: new Float32Array(length) };
        for (const side of [block.left, block.right]) {
          const bytes = new Uint8Array(side.buffer);
          for (let at = 0; at < bytes.length; ) {
            const read = kept(() => readSync(descriptor, bytes, at, bytes.length - at, position));
            if (read === 0) throw new Error('the temporary file is shorter than what was written to it');
            at += read;
            position += read;
          }
        }
        yield block;
      }
    },
    close() {
      closeQuietly(descriptor);
      if (isNamed) removeQuietly(path);
    },
  };
}
