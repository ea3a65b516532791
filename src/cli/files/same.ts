import { statSync } from 'node:fs';
import { resolve } from 'node:path';
import { realTarget } from './below.js';

/** Whether two paths lead to one file, by whatever names and links. `-` is never a file. */
export function isSameFile(a: string, b: string): boolean {
  if (a === '-' || b === '-') return false;
  if (realTarget(resolve(a)) === realTarget(resolve(b))) return true;
  const one = statOf(a);
  const other = statOf(b);
  return one !== undefined && other !== undefined && one.ino === other.ino && one.dev === other.dev;
}

function statOf(path: string): { readonly ino: bigint; readonly dev: bigint } | undefined {
  try {
    return statSync(path, { bigint: true, throwIfNoEntry: false });
  } catch {
    return undefined;
  }
}
