import { constants, openSync, readlinkSync, realpathSync, type Stats, statSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { CannotWrite, fileProblem, writeFailure } from './problems.js';
import { pause } from './streams.js';

/** How long a pipe's reader is waited for. Unit: ms. */
const patience = 1000;

/** Where an output goes when all links are followed. */
export interface Target {
  readonly path: string;
  /** What is there now. */
  readonly existing: Stats | undefined;
  /** A device or a pipe is written to, and never replaced. */
  readonly isDirect: boolean;
}

/** @throws CannotWrite, or what the system says */
export function targetOf(path: string): Target {
  const existing = statSync(path, { throwIfNoEntry: false });
  if (existing?.isDirectory()) throw writeFailure(path, 'it is a folder, not a file');
  // What stands in /dev/fd has names that lead nowhere.
  if (existing && !existing.isFile()) return { path, existing, isDirect: true };
  const target = existing ? realpathSync(path) : notYet(path);
  return { path: target, existing, isDirect: false };
}

/**
 * Whether an output is written to as it comes: standard output, a device or a pipe.
 *
 * @throws CannotWrite
 */
export function isDirect(path: string): boolean {
  if (path === '-') return true;
  try {
    return targetOf(path).isDirect;
  } catch (error) {
    throw error instanceof CannotWrite ? error : writeFailure(path, fileProblem(error));
  }
}

/** The file that a path would make, also through links to nothing. */
function notYet(path: string): string {
  let target = resolve(path);
  for (let links = 0; links < 40; links++) {
    const folder = realFolder(path, dirname(target));
    const next = linkOf(join(folder, basename(target)));
    if (next === undefined) return join(folder, basename(target));
    target = resolve(folder, next);
  }
  return realpathSync(target);
}

function realFolder(path: string, folder: string): string {
  try {
    return realpathSync(folder);
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT')
      throw writeFailure(path, `there is no such folder as ${folder}`, 'make the folder first');
    throw error;
  }
}

function linkOf(path: string): string | undefined {
  try {
    return readlinkSync(path);
  } catch {
    return undefined;
  }
}

/** Opens a device or a pipe. A pipe that nobody reads from would be waited for without end. */
export function openDirect({ path, existing }: Target): number {
  if (!existing?.isFIFO()) return openSync(path, 'w');
  for (let waited = 0; ; waited += 20) {
    try {
      return openSync(path, constants.O_WRONLY | constants.O_NONBLOCK);
    } catch (error) {
      const isAlone = error instanceof Error && 'code' in error && error.code === 'ENXIO';
      if (!isAlone || waited >= patience) throw writeFailure(path, fileProblem(error));
    }
    pause(20);
  }
}
