import { constants, existsSync, openSync, type Stats, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { realTarget } from './below.js';
import { codeOf, guarded, writeFailure } from './problems.js';
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
  const target = realTarget(resolve(path));
  const folder = dirname(target);
  if (!existsSync(folder))
    throw writeFailure(path, `there is no such folder as ${folder}`, 'make the folder first');
  return { path: target, existing, isDirect: false };
}

/**
 * Whether an output is written to as it comes: standard output, a device or a pipe.
 *
 * @throws CannotWrite
 */
export function isDirect(path: string): boolean {
  return path === '-' || guarded(path, () => targetOf(path).isDirect);
}

/** Opens a device or a pipe. A pipe that nobody reads from would be waited for without end. */
export function openDirect({ path, existing }: Target): number {
  if (!existing?.isFIFO()) return openSync(path, 'w');
  for (let waited = 0; ; waited += 20) {
    try {
      return openSync(path, constants.O_WRONLY | constants.O_NONBLOCK);
    } catch (error) {
      if (codeOf(error) !== 'ENXIO' || waited >= patience) throw error;
    }
    pause(20);
  }
}
