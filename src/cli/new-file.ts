import { type Diagnostic, escapeText, isError } from '../diagnostics/index.js';
import { type CommonOptions, show, status } from './context.js';
import { putOutputs } from './files/put.js';
import { isSameFile } from './files/same.js';
import { exit, type Io, UsageError } from './io.js';
import { jsonOf, printJson } from './json.js';
import { refuseScoreName } from './output-kind.js';
import { refuse } from './refuse.js';

/** A new file that a command makes from others, and what is told of it. */
export interface NewFile {
  /** The files that it is made from, as they are told. */
  readonly input: string;
  readonly output: string;
  /** undefined where an error makes it impossible. */
  readonly bytes: Uint8Array | undefined;
  readonly diagnostics: readonly Diagnostic[];
  /** Lines for people; texts from files are escaped already. */
  readonly lines: readonly string[];
  /** What `--json` prints besides input, output and diagnostics. */
  readonly json: Readonly<Record<string, unknown>>;
}

/** Puts a new file in place and tells of it, or says why not. */
export function deliverFile(made: NewFile, options: CommonOptions, io: Io): number {
  const { input, output, bytes, diagnostics } = made;
  if (!bytes || status(diagnostics, options) !== exit.done) return refuse(input, diagnostics, options, io);
  const failures = putOutputs([{ path: output, content: bytes }], io);
  const all = [...diagnostics, ...failures];
  if (options.json && output !== '-')
    printJson({ input, output, ...made.json, diagnostics: jsonOf(all) }, io);
  else if (!options.quiet && !failures.some(isError)) {
    const target = output === '-' ? 'standard output' : escapeText(output);
    const lines = [`${escapeText(input)} → ${target}`, ...made.lines.map((line) => `  ${line}`)];
    (output === '-' ? io.err : io.out)(`${lines.join('\n')}\n`);
  }
  return show(all, options, io);
}

/** Where a new file goes; never over one that it is made from. */
export function newFilePath(output: string | undefined, inputs: readonly string[]): string {
  if (output === undefined) throw new UsageError('say where the result goes: -o OUT.mid');
  if (inputs.filter((file) => file === '-').length > 1)
    throw new UsageError('only one of the files can come from standard input');
  const same = inputs.find((input) => isSameFile(input, output));
  if (same !== undefined)
    throw new UsageError(
      `the output would overwrite ${escapeText(same)}, which it is made from: give it another name`,
    );
  refuseScoreName(output);
  return output;
}
