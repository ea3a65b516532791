import { join } from 'node:path';
import type { Outcome } from '../diagnostics/index.js';
import { type Bases, type BaseText, baseNamed, mostLinks } from '../map/index.js';
import { leavesFolder } from './files/below.js';
import { readInput } from './files/read.js';
import type { Io } from './io.js';

/**
 * Reads the files that lend to a map, one behind the other, until one names none that is new.
 *
 * @param read the file of a path from the map's folder
 */
export async function chainOf(
  bytes: Uint8Array,
  folder: string,
  read: (path: string) => Promise<BaseText>,
): Promise<Bases> {
  const texts = new Map<string, BaseText>();
  let path = baseNamed(bytes);
  while (path !== undefined && !texts.has(path) && texts.size < mostLinks) {
    const text = await read(path);
    texts.set(path, text);
    path = text instanceof Uint8Array ? baseNamed(text, path) : undefined;
  }
  return { folder, texts };
}

/** The files that lend to a map file; that of standard input is in the current folder. */
export function basesOf(bytes: Uint8Array, file: string, maxBytes: number, io: Io): Promise<Bases> {
  const folder = file.slice(0, file.lastIndexOf('/') + 1);
  return chainOf(bytes, folder, async (path) => {
    const whole = join(folder === '' ? '.' : folder, path);
    if (leavesFolder(folder === '' ? '.' : folder, whole))
      return { code: 'path-outside', problem: 'it leads out of the folder of the map, through a link' };
    return textOf(await readInput(whole, maxBytes, io), maxBytes);
  });
}

/** A file that was read, as it lends. */
export function textOf({ value, diagnostics }: Outcome<Uint8Array>, maxBytes: number): BaseText {
  const [why] = diagnostics;
  if (!value)
    return {
      code: 'cannot-read',
      problem: (why?.message ?? 'it is not there').replace(/^cannot be read: /u, ''),
      ...(why?.hint === undefined ? {} : { hint: why.hint }),
    };
  if (value.length <= maxBytes) return value;
  return {
    code: 'map-too-large',
    problem: `it is larger than ${Math.round(maxBytes / 1024)} KB`,
    hint: '--max-map KB raises the limit',
  };
}
