import type { Diagnostic } from '../diagnostics/index.js';
import { mergedMap, readMap } from '../map/index.js';
import { type CommonOptions, limits, show } from './context.js';
import type { Io } from './io.js';
import { readWithBases } from './read-with-bases.js';

/** Prints maps with all that is lent to them as YAML, one document for each. */
export async function printMerged(
  files: readonly string[],
  ofWords: readonly Diagnostic[],
  options: CommonOptions,
  io: Io,
): Promise<number> {
  const maxBytes = options.maxMap ?? limits.map;
  const found: Diagnostic[] = [...ofWords];
  const texts: string[] = [];
  for (const file of files) {
    const { bytes, bases, diagnostics } = await readWithBases(file, options, io);
    found.push(...diagnostics);
    if (!bytes) continue;
    const { diagnostics: ofMap } = readMap(bytes, file, { maxBytes, bases });
    const { value: text } = mergedMap(bytes, file, bases);
    found.push(...ofMap);
    if (text !== undefined) texts.push(text);
  }
  if (texts.length > 0) io.out(texts.join('---\n'));
  return show(found, options, io);
}
