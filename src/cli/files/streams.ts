import { closeSync, writeSync } from 'node:fs';
import { codeOf, fileProblem, writeFailure } from './problems.js';

/** Standard output or standard error. */
export interface OpenStream {
  /**
   * Writes everything, also to a pipe that takes it bit by bit. A reader who has gone away has seen what it wanted: the
   * rest is dropped, and the program goes on to its exit status.
   *
   * @throws CannotWrite
   */
  write(data: string | Uint8Array): void;
  /** The same, where there is nobody left to be told of what goes wrong. */
  tell(data: string | Uint8Array): void;
  /** Whether all that was told arrived, as far as somebody was there to read it. */
  isWhole(): boolean;
}

export function writeStream(descriptor: 1 | 2): OpenStream {
  let isOpen = true;
  let isWhole = true;
  const write = (data: string | Uint8Array) => {
    if (!isOpen) return;
    try {
      writeAll(descriptor, typeof data === 'string' ? Buffer.from(data) : data);
    } catch (error) {
      isOpen = false;
      if (codeOf(error) !== 'EPIPE') throw writeFailure('-', fileProblem(error));
    }
  };
  const tell = (data: string | Uint8Array) => {
    try {
      write(data);
    } catch {
      isWhole = false;
    }
  };
  return { write, tell, isWhole: () => isWhole };
}

/** Writes all of it, also to a pipe that is full for the moment. */
export function writeAll(descriptor: number, bytes: Uint8Array): void {
  for (let at = 0; at < bytes.length; )
    try {
      at += writeSync(descriptor, bytes, at);
    } catch (error) {
      if (codeOf(error) !== 'EAGAIN') throw error;
      pause(5);
    }
}

/** Lets go of a file from which nothing more is wanted; it is let go of whatever the system tells. */
export function closeQuietly(descriptor: number): void {
  try {
    closeSync(descriptor);
  } catch {
    // What was read is read, and what was written is thrown away.
  }
}

/** Waits without giving way to anything else. Unit: ms. */
export function pause(length: number): void {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, length);
}
