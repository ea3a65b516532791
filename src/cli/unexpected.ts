import { escapeLines, escapeText, formatDiagnostic } from '../diagnostics/index.js';
import { CannotWrite, readProblem } from './files/problems.js';
import { version } from './version.generated.js';

/**
 * What is told of a failure that no command expects: the version, one line of cause, and how to see the trace. What the
 * program's surroundings do to it, as a working folder that was taken away, is a diagnostic like any other.
 *
 * @param isTraced whether the trace is asked for (KEYSLIP_DEBUG)
 */
export function unexpectedText(error: unknown, isTraced: boolean): string {
  if (error instanceof CannotWrite)
    return error.diagnostics.map((one) => `${formatDiagnostic(one)}\n`).join('');
  if (error instanceof Error && 'syscall' in error && error.syscall === 'uv_cwd')
    return `${formatDiagnostic(readProblem('.', 'the working folder is not there any more', 'go to a folder that is there'))}\n`;
  const { name, message, stack } =
    error instanceof Error ? error : { name: 'thrown', message: String(error), stack: undefined };
  const cause = escapeText((message.split('\n')[0] ?? '').slice(0, 300));
  const trace = isTraced
    ? escapeLines(stack ?? 'there is no trace')
    : 'No output was left half written. KEYSLIP_DEBUG=1 before the command shows where it happened; please report it with that.';
  return `keyslip ${version}: a fault of the program: ${escapeText(name)}: ${cause}\n${trace}\n`;
}
