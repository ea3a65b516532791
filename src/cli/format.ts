import { Option } from 'commander';
import { type Findings, githubText, junitText, type Looked, sarifLog } from '../report/index.js';
import { type CommonOptions, printJson } from './context.js';
import type { Io } from './io.js';
import { version } from './version.js';

/** How what was found is told: to people, or to what shows it. */
export const formats = ['text', 'json', 'github', 'sarif', 'junit'] as const;

export interface FormatOptions extends CommonOptions {
  readonly format?: (typeof formats)[number];
}

/** The option of commands that tell in several formats. */
export function formatOption(): Option {
  return new Option(
    '--format <kind>',
    'tell what was found to people, to programs, or to what runs them',
  ).choices(formats);
}

/** The format that is asked for; `--json` is short for one. */
export function formatOf({ format, json }: FormatOptions): (typeof formats)[number] {
  return format ?? (json ? 'json' : 'text');
}

/** Prints what was found for GitHub, as SARIF or for runners of tests; says whether it was one of these. */
export function printFindings(
  command: Findings['command'],
  files: readonly Looked[],
  options: FormatOptions,
  io: Io,
): boolean {
  const format = formatOf(options);
  const quiet = (one: Looked): Looked =>
    options.quiet
      ? { ...one, diagnostics: one.diagnostics.filter(({ severity }) => severity === 'error') }
      : one;
  const findings = { command, version, files: files.map(quiet), isStrict: options.strict === true };
  if (format === 'github') io.out(githubText(findings));
  else if (format === 'sarif') printJson(sarifLog(findings), io);
  else if (format === 'junit') io.out(junitText(findings));
  else return false;
  return true;
}
