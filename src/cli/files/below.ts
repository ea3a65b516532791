import { readlinkSync, realpathSync } from 'node:fs';
import { basename, dirname, join, relative, resolve, sep } from 'node:path';

/**
 * Whether a path leads out of a folder, by whatever links; a path whose file or folders are not there yet is followed as
 * far as it goes.
 */
export function leavesFolder(folder: string, path: string): boolean {
  const top = realTarget(resolve(folder));
  const way = relative(top, realTarget(resolve(path)));
  return way === '..' || way.startsWith(`..${sep}`) || resolve(top, way) === way;
}

/** Whether a path leads, by whatever links, to a file below a folder that is hidden, or stands in a hidden folder. */
export function isHidden(folder: string, path: string): boolean {
  const way = relative(realTarget(resolve(folder)), realTarget(resolve(path)));
  return way.split(sep).some((step) => step !== '..' && step.startsWith('.'));
}

/** Where a path ends when all its links are followed. */
export function realTarget(path: string, links = 0): string {
  try {
    return realpathSync(path);
  } catch {
    // A link to nothing is followed too, because writing would.
    const next = links < 40 ? linkTarget(path) : undefined;
    if (next !== undefined) return realTarget(resolve(dirname(path), next), links + 1);
    const parent = dirname(path);
    return parent === path ? path : join(realTarget(parent, links), basename(path));
  }
}

/** What a link names; undefined for what is none, or cannot be looked at: opening it will tell why. */
function linkTarget(path: string): string | undefined {
  try {
    return readlinkSync(path);
  } catch {
    return undefined;
  }
}
