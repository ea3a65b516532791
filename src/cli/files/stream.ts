import { randomBytes } from 'node:crypto';
import {
  accessSync,
  closeSync,
  constants,
  fsyncSync,
  openSync,
  renameSync,
  statSync,
  unlinkSync,
  writeSync,
} from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { type Diagnostic, diagnostic } from '../../diagnostics/index.js';
import { fileProblem } from './problems.js';

/** A file that is written piece by piece beside its destination. */
export interface FileStream {
  write(bytes: Uint8Array): void;
  /** Puts it in place; what was there is replaced at once and whole. */
  commit(): void;
  /** Takes it away again. */
  discard(): void;
}

/** What was wrong with a file, thrown out of whatever was writing to it. */
export class CannotWrite extends Error {
  constructor(readonly diagnostic: Diagnostic) {
    super(diagnostic.message);
  }
}

/**
 * Opens a file that is too large to be held. A device or a pipe is written to directly.
 *
 * @throws CannotWrite, as its functions do
 */
export function streamTo(path: string): FileStream {
  return guarded(path, () => {
    const target = resolve(path);
    const existing = statSync(target, { throwIfNoEntry: false });
    if (existing?.isDirectory()) throw problem(path, 'it is a folder, not a file');
    if (existing?.isFile()) accessSync(target, constants.W_OK);
    const isDirect = existing !== undefined && !existing.isFile();
    const name = `.${basename(target).slice(0, 80)}.${randomBytes(6).toString('hex')}.tmp`;
    const temporary = isDirect ? target : join(dirname(target), name);
    const descriptor = openSync(temporary, isDirect ? 'w' : 'wx', existing ? existing.mode & 0o7777 : 0o666);
    let isOpen = true;
    const close = () => {
      if (isOpen) closeSync(descriptor);
      isOpen = false;
    };
    const discard = () => {
      close();
      if (!isDirect) remove(temporary);
    };
    const orDiscard = (action: () => void) =>
      guarded(path, () => {
        try {
          action();
        } catch (error) {
          discard();
          throw error;
        }
      });
    return {
      write: (bytes) =>
        orDiscard(() => {
          for (let at = 0; at < bytes.length; ) at += writeSync(descriptor, bytes, at);
        }),
      commit: () =>
        orDiscard(() => {
          if (!isDirect) fsyncSync(descriptor);
          close();
          if (!isDirect) renameSync(temporary, target);
        }),
      discard,
    };
  });
}

function guarded<T>(path: string, action: () => T): T {
  try {
    return action();
  } catch (error) {
    throw error instanceof CannotWrite ? error : problem(path, fileProblem(error));
  }
}

function problem(file: string, reason: string): CannotWrite {
  return new CannotWrite(
    diagnostic(
      'cannot-write',
      { kind: 'file', file },
      `cannot be written: ${reason}`,
      'the file that was there before, if any, is as it was',
    ),
  );
}

function remove(path: string): void {
  try {
    unlinkSync(path);
  } catch {
    // It is gone already, or the disk no longer answers: nothing is left to undo.
  }
}
