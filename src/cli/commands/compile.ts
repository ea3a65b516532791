import { compile } from '../../compile/index.js';
import { report } from '../../explain/report.js';
import { summary } from '../../explain/summary.js';
import { jsonOf, printJson, show, status } from '../context.js';
import { isSameFile } from '../files/same.js';
import { stage } from '../files/stage.js';
import { exit, type Io, UsageError } from '../io.js';
import { loadJobs, type PartOptions } from '../jobs.js';

export interface CompileOptions extends PartOptions {
  readonly output?: string;
  readonly report?: string;
  readonly inPlace?: boolean;
}

/** `keyslip compile`: reads, decides, and puts the switched file in place, or says why not. */
export async function compileCommand(input: string, options: CompileOptions, io: Io): Promise<number> {
  const output = outputOf(input, options);
  const { value: loaded, diagnostics: found } = await loadJobs(input, options, io);
  const compiled = loaded ? compile(loaded.song, loaded.jobs, loaded.original) : undefined;
  const diagnostics = [...found, ...(compiled?.diagnostics ?? [])];
  const result = compiled?.value;
  if (!result || status(diagnostics, options) !== exit.done) {
    if (options.json) printJson({ input, diagnostics: jsonOf(diagnostics) }, io);
    const refused = show(diagnostics, options, io);
    if (result && !options.quiet) io.err('Nothing was written: with --strict, warnings count as errors.\n');
    return refused;
  }
  const decided = report(input, result.parts);
  const failures = put(output, result.bytes, io, options.report, `${JSON.stringify(decided, null, 2)}\n`);
  const all = [...diagnostics, ...failures];
  const say = output === '-' ? io.err : io.out;
  if (options.json && output !== '-') printJson({ ...decided, output, diagnostics: jsonOf(all) }, io);
  else if (!options.quiet && failures.length === 0) say(summary(result.parts, input, output));
  return show(all, options, io);
}

/** Where the result goes. The input is never overwritten unless that was asked for. */
function outputOf(input: string, { output, inPlace, report: reportFile, map }: CompileOptions): string {
  const target = output ?? (inPlace ? input : undefined);
  if (target === undefined) throw new UsageError('say where the result goes: -o OUT.mid');
  if (isSameFile(input, target) && !inPlace)
    throw new UsageError(
      'the output is the input file: give it another name, or say --in-place if that is meant',
    );
  const files = map.map((text) => text.slice(text.lastIndexOf('=') + 1));
  if (files.some((file) => isSameFile(file, target)))
    throw new UsageError('the output is the map: give it another name');
  if (reportFile !== undefined && [input, target, ...files].some((file) => isSameFile(file, reportFile)))
    throw new UsageError('the report would overwrite another file of this command: give it another name');
  return target;
}

/** Puts the result and the report in place, both or neither. */
function put(output: string, bytes: Uint8Array, io: Io, reportFile: string | undefined, reportText: string) {
  const staged = [
    ...(output === '-' ? [] : [stage(output, bytes)]),
    ...(reportFile === undefined || reportFile === '-'
      ? []
      : [stage(reportFile, new TextEncoder().encode(reportText))]),
  ];
  const failures = staged.flatMap(({ diagnostics }) => diagnostics);
  if (failures.length > 0) {
    for (const one of staged) one.discard();
    return failures;
  }
  const late = staged.flatMap((one) => one.commit());
  if (output === '-') io.out(bytes);
  if (reportFile === '-') io.out(reportText);
  return late;
}
