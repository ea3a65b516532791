import type { Findings, Looked } from '../report/index.js';
import { type FormatOptions, formatOf } from './format-option.js';
import type { Io } from './io.js';
import { printDocument } from './json.js';
import { version } from './version.generated.js';

/**
 * Prints what was found for GitHub, as SARIF or for runners of tests; says whether it was one of these.
 *
 * @param files what was found in each; only asked where it is told so
 */
export async function printFindings(
  command: Findings['command'],
  files: () => readonly Looked[],
  options: FormatOptions,
  io: Io,
): Promise<boolean> {
  const format = formatOf(options);
  if (format === 'text' || format === 'json') return false;
  const { githubText, junitText, sarifLog } = await import('../report/index.js');
  const quiet = (one: Looked): Looked =>
    options.quiet
      ? { ...one, diagnostics: one.diagnostics.filter(({ severity }) => severity === 'error') }
      : one;
  const findings = { command, version, files: files().map(quiet), isStrict: options.strict === true };
  if (format === 'sarif') printDocument(sarifLog(findings), io);
  else io.out(format === 'github' ? githubText(findings) : junitText(findings));
  return true;
}
