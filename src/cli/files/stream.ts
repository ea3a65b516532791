import {
  accessSync,
  closeSync,
  constants,
  copyFileSync,
  fchmodSync,
  fchownSync,
  fstatSync,
  fsyncSync,
  linkSync,
  openSync,
  renameSync,
  type Stats,
  unlinkSync,
} from 'node:fs';
import { dirname } from 'node:path';
import { type Diagnostic, diagnostic, plural } from '../../diagnostics/index.js';
import { fileProblem, guarded, writeFailure } from './problems.js';
import { closeQuietly, writeAll } from './streams.js';
import { openDirect, type Target, targetOf } from './target.js';
import { forgetTemporary, removeTemporary, sweep, temporaryBeside } from './temporary.js';

/** A file that is written piece by piece beside its destination. Its functions throw CannotWrite. */
export interface FileStream {
  /** What of a file that is replaced will not be as it was. */
  readonly remarks: readonly Diagnostic[];
  write(bytes: Uint8Array): void;
  /** What was written is on the disk now. */
  finish(): void;
  /** Puts it in place; what was there is replaced at once and whole. */
  commit(): void;
  /** Takes it away again. */
  discard(): void;
  /** After `commit`: puts back what was there, where another output that belongs to it failed. */
  undo(): void;
  /** After `commit`: what was there is not needed any more. */
  settle(): void;
}

/**
 * Opens a file that is put in place by one rename, so that it is either the old one or the finished new one, whenever the
 * program ends. A link is followed; a device or a pipe is written to directly.
 *
 * @param isOneOfSeveral whether `undo` may be asked for
 * @throws CannotWrite, as its functions do
 */
export function streamTo(path: string, isOneOfSeveral = false): FileStream {
  return guarded(path, () => {
    const target = targetOf(path);
    return target.isDirect ? directStream(path, target) : fileStream(path, target, isOneOfSeveral);
  });
}

function directStream(path: string, target: Target): FileStream {
  const descriptor = openDirect(target);
  let isOpen = true;
  const close = () => {
    if (!isOpen) return;
    isOpen = false;
    closeSync(descriptor);
  };
  const discard = () => {
    if (isOpen) closeQuietly(descriptor);
    isOpen = false;
  };
  return {
    remarks: [],
    write: (bytes) => orElse(path, () => writeAll(descriptor, bytes), discard),
    finish: () => {},
    commit: () => guarded(path, close),
    discard,
    undo: () => {},
    settle: () => {},
  };
}

function fileStream(path: string, { path: target, existing }: Target, isOneOfSeveral: boolean): FileStream {
  if (existing) accessSync(target, constants.W_OK);
  sweep(dirname(target));
  const temporary = temporaryBeside(target);
  let descriptor: number | undefined;
  let isMade = false;
  let kept: string | undefined;
  // Whatever closing tells, a file is closed once.
  const letGo = () => {
    const open = descriptor;
    descriptor = undefined;
    return open;
  };
  const discard = () => {
    const open = letGo();
    if (open !== undefined) closeQuietly(open);
    (isMade ? removeTemporary : forgetTemporary)(temporary);
  };
  const settle = () => {
    if (kept !== undefined) removeTemporary(kept);
    kept = undefined;
  };
  const finish = () =>
    orElse(
      path,
      () => {
        if (descriptor !== undefined) fsyncSync(descriptor);
        const open = letGo();
        if (open !== undefined) closeSync(open);
      },
      discard,
    );
  const remarks = orElse(
    path,
    () => {
      descriptor = openSync(temporary, 'wx', 0o666);
      isMade = true;
      return existing ? alike(descriptor, path, existing) : [];
    },
    discard,
  );
  return {
    remarks,
    write: (bytes) => orElse(path, () => descriptor !== undefined && writeAll(descriptor, bytes), discard),
    finish,
    commit() {
      finish();
      orElse(
        path,
        () => {
          if (isOneOfSeveral && existing) kept = secondName(target);
          renameSync(temporary, target);
        },
        () => {
          discard();
          settle();
        },
      );
      forgetTemporary(temporary);
    },
    discard,
    undo() {
      const old = kept;
      try {
        if (old === undefined) unlinkSync(target);
        else renameSync(old, target);
      } catch (error) {
        settle();
        throw writeFailure(
          path,
          `what was there before cannot be put back: ${fileProblem(error)}`,
          'it is the new one, whole, while other results of this command are not: run it again',
        );
      }
      if (old !== undefined) forgetTemporary(old);
      kept = undefined;
    },
    settle,
  };
}

/**
 * Gives the new file the rights and the owner of the one that it replaces. What is written is no program: whoever made
 * the old file, no right to run it is kept.
 */
function alike(descriptor: number, path: string, existing: Stats): readonly Diagnostic[] {
  try {
    fchownSync(descriptor, existing.uid, existing.gid);
  } catch {
    // Only root may give files away; what came of it is looked at below.
  }
  fchmodSync(descriptor, existing.mode & 0o666);
  const now = fstatSync(descriptor);
  const changes = [
    ...(now.uid === existing.uid && now.gid === existing.gid ? [] : ['its owner is another one now']),
    ...((now.mode & 0o7777) === (existing.mode & 0o7777) ? [] : ['it has no right to be run any more']),
    ...(existing.nlink < 2
      ? []
      : [
          `${plural(existing.nlink - 1, 'other name')} (hard links) still lead to the file that was there before`,
        ]),
  ];
  const place = { kind: 'file', file: path } as const;
  return changes.map((change) => diagnostic('not-kept', place, `took the place of another file: ${change}`));
}

/** A name that keeps what is about to be replaced: a second one of the file itself, or of a copy where a disk has none. */
function secondName(target: string): string {
  const name = temporaryBeside(target);
  try {
    linkSync(target, name);
  } catch {
    try {
      copyFileSync(target, name, constants.COPYFILE_EXCL);
    } catch (error) {
      removeTemporary(name);
      throw error;
    }
  }
  return name;
}

function orElse<T>(path: string, action: () => T, undo: () => void): T {
  return guarded(path, () => {
    try {
      return action();
    } catch (error) {
      undo();
      throw error;
    }
  });
}
