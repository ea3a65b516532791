import { type Cue, compileCue } from '../../cue/index.js';
import type { Diagnostic } from '../../diagnostics/index.js';
import { status } from '../context.js';
import { besideCue, chosenParts, loadCue, loadMaterial, outputRefused, overwrites } from '../cue-files.js';
import { type DeliverOptions, deliver } from '../deliver.js';
import { exit, type Io } from '../io.js';
import { isClip, refuseScoreName } from '../output-kind.js';
import { refuseReport } from '../places.js';
import { progressLine } from '../progress.js';
import { refuse } from '../refuse.js';

export interface CueOptions extends DeliverOptions {
  /** Names of parts; all of them where there are none. */
  readonly part: readonly string[];
  readonly output?: string;
  readonly report?: string;
  /** Let the output that the cue names take the place of a file that is no music. */
  readonly replace?: boolean;
}

/** `keyslip cue`: compiles everything that a cue file describes, and puts the result in place, or says why not. */
export async function cueCommand(file: string, options: CueOptions, io: Io): Promise<number> {
  const { value: whole, diagnostics: ofCue } = await loadCue(file, options, io);
  if (!whole) return refuse(file, ofCue, options, io);
  const cue = chosenParts(whole, options.part);
  const { value: material, diagnostics: ofFiles } = await loadMaterial(cue, options, io);
  const { output, diagnostics: ofOutput } = outputOf(cue, options);
  const progress = progressLine(io, options);
  const compiled = material && compileCue(cue, material, progress.step, !options.bare && !isClip(output));
  const result = compiled?.value;
  if (options.prove) progress.step(1, 1, output, 'proving');
  const proof =
    options.prove && result
      ? (await import('../proof-for.js')).proofFor(result, { song: result.planned.song }, output)
      : [];
  progress.end();
  const diagnostics = [...ofCue, ...ofFiles, ...ofOutput, ...(compiled?.diagnostics ?? []), ...proof];
  if (!result || status(diagnostics, options) !== exit.done) return refuse(file, diagnostics, options, io);
  const { song } = result.planned;
  const names = { source: besideCue(cue, cue.source), input: cue.file, output, report: options.report };
  return deliver([{ ...names, song, result }], diagnostics, options, io);
}

/** Where the result goes: as the command line says, else as the cue does. */
function outputOf(
  cue: Cue,
  { output, report: reportFile, replace: isReplaced = false }: CueOptions,
): { readonly output: string; readonly diagnostics: readonly Diagnostic[] } {
  const target = output ?? besideCue(cue, cue.output);
  refuseScoreName(target);
  const refused = output === undefined ? outputRefused(cue, isReplaced) : [];
  refuseReport(reportFile, target, (path) => overwrites(cue, path).length > 0);
  return { output: target, diagnostics: [...refused, ...overwrites(cue, target)] };
}
