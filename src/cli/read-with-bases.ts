import type { Diagnostic } from '../diagnostics/index.js';
import { type Bases, noBases } from '../map/index.js';
import { basesOf } from './bases.js';
import { type CommonOptions, limits } from './context.js';
import { readInput } from './files/read.js';
import { basesOfVersion, isVersion, readVersion } from './git/version.js';
import type { Io } from './io.js';

/** A file, or a version of one that git keeps, with what lends to it in the same version. */
export async function readWithBases(
  file: string,
  options: CommonOptions,
  io: Io,
): Promise<{
  readonly bytes: Uint8Array | undefined;
  readonly bases: Bases;
  readonly diagnostics: readonly Diagnostic[];
}> {
  const maxBytes = options.maxMap ?? limits.map;
  const isKept = isVersion(file);
  const { value: bytes, diagnostics } = isKept
    ? await readVersion(file, maxBytes)
    : await readInput(file, maxBytes, io);
  if (!bytes) return { bytes, bases: noBases, diagnostics };
  const bases = isKept
    ? await basesOfVersion(bytes, file, maxBytes)
    : await basesOf(bytes, file, maxBytes, io);
  return { bytes, bases, diagnostics };
}
