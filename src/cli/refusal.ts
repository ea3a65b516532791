import { CommanderError } from 'commander';
import { printJson } from './context.js';
import { type Io, UsageError } from './io.js';

/** Where JSON was asked for, a command line that cannot be carried out is told in it too, as `command-line`. */
export function printRefusal(argv: readonly string[], error: Error, io: Io): void {
  if (!(error instanceof UsageError || (error instanceof CommanderError && error.exitCode !== 0))) return;
  const end = argv.indexOf('--');
  const words = end < 0 ? argv : argv.slice(0, end);
  const isAsked =
    words.includes('--json') ||
    words.includes('--format=json') ||
    words[words.indexOf('--format') + 1] === 'json';
  if (!isAsked) return;
  const message = error.message.replace(/^error: /u, '');
  printJson({ diagnostics: [{ code: 'command-line', severity: 'error', message }] }, io);
}
