import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { diagnostic, type Outcome } from '../../diagnostics/index.js';
import { WavError } from '../../sound/index.js';
import type { Io } from '../io.js';
import { codeOf, fileProblem, readProblem } from './problems.js';

/**
 * Reads a sound as it goes, and says what is wrong with the file: it is too long to be read first.
 *
 * @param use what is made of it, and how often it opens it
 */
export async function readSound<T>(
  file: string,
  io: Io,
  use: (open: () => ReturnType<typeof createReadStream>) => Promise<Outcome<T>>,
): Promise<Outcome<T>> {
  const cannot = (problem: string, hint?: string): Outcome<T> => {
    return { value: undefined, diagnostics: [readProblem(file, problem, hint)] };
  };
  io.opening?.(file);
  try {
    const before = await stat(file);
    if (before.isDirectory()) return cannot('it is a folder, not a file');
    const used = await use(() => createReadStream(file, { highWaterMark: 1 << 18 }));
    const after = await stat(file);
    if (after.size !== before.size || after.mtimeMs !== before.mtimeMs)
      return cannot('it was changed while it was read', 'run the command again when the file is at rest');
    return used;
  } catch (error) {
    if (error instanceof WavError) {
      const place = { kind: 'bytes', file, offset: error.offset } as const;
      return { value: undefined, diagnostics: [diagnostic(error.code, place, error.message, error.hint)] };
    }
    if (codeOf(error) !== '') return cannot(fileProblem(error));
    throw error;
  }
}
