import { type Diagnostic, isError } from '../diagnostics/index.js';
import { type CommonOptions, show } from './context.js';
import type { Io } from './io.js';
import { jsonOf, printJson } from './json.js';

/**
 * Nothing is written; everything that was found is told.
 *
 * @param input what was given; of several, JSON names none, since each diagnostic names its own
 */
export function refuse(
  input: string | readonly string[],
  diagnostics: readonly Diagnostic[],
  options: CommonOptions,
  io: Io,
): number {
  const [only, ...more] = [input].flat();
  if (options.json)
    printJson({ ...(more.length > 0 ? {} : { input: only }), diagnostics: jsonOf(diagnostics) }, io);
  const refused = show(diagnostics, options, io);
  const isStrict = !diagnostics.some(isError);
  if (isStrict && !options.quiet) io.err('Nothing was written: with --strict, warnings count as errors.\n');
  return refused;
}
