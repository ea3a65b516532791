import type { Io, UsageError } from './io.js';
import { printJson } from './json.js';

/** Where JSON was asked for, a command line that cannot be carried out is told in it too, as `command-line`. */
export function printRefusal(argv: readonly string[], { message, hint }: UsageError, io: Io): void {
  const end = argv.indexOf('--');
  const words = end < 0 ? argv : argv.slice(0, end);
  const isAsked =
    words.includes('--json') ||
    words.includes('--format=json') ||
    words[words.indexOf('--format') + 1] === 'json';
  const told = { code: 'command-line', severity: 'error', message, ...(hint === undefined ? {} : { hint }) };
  if (isAsked) printJson({ diagnostics: [told] }, io);
}
