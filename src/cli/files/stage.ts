import { randomBytes } from 'node:crypto';
import {
  accessSync,
  closeSync,
  constants,
  fsyncSync,
  lstatSync,
  openSync,
  readlinkSync,
  realpathSync,
  renameSync,
  statSync,
  unlinkSync,
  writeSync,
} from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { type Diagnostic, diagnostic } from '../../diagnostics/index.js';
import { fileProblem } from './problems.js';

/** An output that is complete on disk under a temporary name, or a failure to get that far. */
export interface Staged {
  readonly diagnostics: readonly Diagnostic[];
  /** Puts it in place. The file that was there is replaced at once and whole. */
  commit(): readonly Diagnostic[];
  /** Takes it away again. */
  discard(): void;
}

/**
 * Writes bytes beside their destination, to be put in place by one rename: a file is either the old one or the
 * finished new one, whenever the program ends. A link is followed; a device or a pipe is written to directly.
 */
export function stage(path: string, bytes: Uint8Array): Staged {
  try {
    const target = followLinks(path);
    const existing = statSync(target, { throwIfNoEntry: false });
    if (existing?.isDirectory()) return failed(path, 'it is a folder, not a file');
    if (existing && !existing.isFile()) return direct(path, target, bytes);
    if (existing) accessSync(target, constants.W_OK);
    const temporary = join(
      dirname(target),
      `.${basename(target).slice(0, 80)}.${randomBytes(6).toString('hex')}.tmp`,
    );
    // What is written is no program: whoever made the file that was there, no right to run it is kept.
    writeWhole(temporary, bytes, existing ? existing.mode & 0o666 : 0o666);
    return {
      diagnostics: [],
      commit: () =>
        attempt(
          path,
          () => renameSync(temporary, target),
          () => remove(temporary),
        ),
      discard: () => remove(temporary),
    };
  } catch (error) {
    return failed(path, fileProblem(error));
  }
}

/** The file that a path leads to, also where a link's target does not exist yet. */
function followLinks(path: string): string {
  let target = resolve(path);
  for (let links = 0; links < 40; links++) {
    if (!lstatSync(target, { throwIfNoEntry: false })?.isSymbolicLink())
      return join(realpathSync(dirname(target)), basename(target));
    target = resolve(dirname(target), readlinkSync(target));
  }
  return realpathSync(target);
}

function writeWhole(path: string, bytes: Uint8Array, mode: number): void {
  const descriptor = openSync(path, 'wx', mode);
  try {
    for (let at = 0; at < bytes.length; ) at += writeSync(descriptor, bytes, at);
    fsyncSync(descriptor);
  } catch (error) {
    closeSync(descriptor);
    remove(path);
    throw error;
  }
  closeSync(descriptor);
}

function direct(path: string, target: string, bytes: Uint8Array): Staged {
  const write = () => {
    const descriptor = openSync(target, 'w');
    try {
      for (let at = 0; at < bytes.length; ) at += writeSync(descriptor, bytes, at);
    } finally {
      closeSync(descriptor);
    }
  };
  return { diagnostics: [], commit: () => attempt(path, write, () => {}), discard: () => {} };
}

function attempt(path: string, action: () => void, undo: () => void): readonly Diagnostic[] {
  try {
    action();
    return [];
  } catch (error) {
    undo();
    return [problem(path, fileProblem(error))];
  }
}

function remove(path: string): void {
  try {
    unlinkSync(path);
  } catch {
    // It is gone already, or the disk no longer answers: nothing is left to undo.
  }
}

function failed(path: string, reason: string): Staged {
  return { diagnostics: [problem(path, reason)], commit: () => [], discard: () => {} };
}

function problem(file: string, reason: string): Diagnostic {
  return diagnostic(
    'cannot-write',
    { kind: 'file', file },
    `cannot be written: ${reason}`,
    'the file that was there before, if any, is as it was',
  );
}
