import { type Diagnostic, isError } from '../diagnostics/index.js';
import { type CommonOptions, show } from './context.js';
import type { Io } from './io.js';
import { jsonOf, printJson } from './json.js';

/** Nothing is written; everything that was found is told. */
export function refuse(
  input: string,
  diagnostics: readonly Diagnostic[],
  options: CommonOptions,
  io: Io,
): number {
  if (options.json) printJson({ input, diagnostics: jsonOf(diagnostics) }, io);
  const refused = show(diagnostics, options, io);
  const isStrict = !diagnostics.some(isError);
  if (isStrict && !options.quiet) io.err('Nothing was written: with --strict, warnings count as errors.\n');
  return refused;
}
