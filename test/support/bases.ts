import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Bases } from '../../src/map/read/index.js';

/** Every file in a folder and below that might lend to a map there. */
export function basesIn(folder: string): Bases {
  const paths = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((path) =>
    path.endsWith('.yaml'),
  );
  const texts = new Map(paths.map((path) => [path, new Uint8Array(readFileSync(join(folder, path)))]));
  return { folder: `${folder}/`, texts };
}
