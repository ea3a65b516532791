import { proofOf } from '../../api/index.js';
import { type Compiled, compile, type Job, type OnPart } from '../../compile/index.js';
import { type Diagnostic, diagnostic, isError } from '../../diagnostics/index.js';
import { isMidi, readMidi, type Song } from '../../midi/index.js';
import { type Report, report, summary } from '../../report/index.js';
import { clipOf } from '../clip.js';
import { type CommonOptions, loadSong, show, status } from '../context.js';
import { putOutputs } from '../files/put.js';
import { readInput } from '../files/read.js';
import { isSameFile } from '../files/same.js';
import { exit, type Io, UsageError } from '../io.js';
import { type LoadedJobs, loadJobs, type PartOptions } from '../jobs.js';
import { jsonOf, printJson, withFormat } from '../json.js';
import { isClip, refuseScoreName } from '../output-kind.js';
import { type Progress, progressLine } from '../progress.js';
import { refuse } from '../refuse.js';

/** What is done with a result. */
export interface DeliverOptions extends CommonOptions {
  readonly report?: string;
  readonly prove?: boolean;
}

export interface CompileOptions extends PartOptions, DeliverOptions {
  readonly output?: string;
  readonly inPlace?: boolean;
}

/** `keyslip compile`: reads, decides, and puts the switched file in place, or says why not. */
export async function compileCommand(input: string, options: CompileOptions, io: Io): Promise<number> {
  const output = outputOf(input, options);
  if (options.inPlace && (await isScoreFile(input, io)))
    throw new UsageError('a score cannot take the result in its place: say where it goes with -o OUT.mid');
  const { value: loaded, diagnostics: found } = await loadJobs(
    await loadSong(input, options, io),
    options,
    io,
  );
  const progress = progressLine(io, options);
  const compiled = loaded
    ? compile(loaded.song, loaded.jobs, loaded.original, steps(loaded.jobs, progress))
    : undefined;
  const result = compiled?.value;
  if (options.prove) progress.step(1, 1, output, 'proving');
  const proof = options.prove && loaded && result ? proofFor(result, loaded, output) : [];
  progress.end();
  const diagnostics = [...found, ...(compiled?.diagnostics ?? []), ...proof];
  const isRefused = status(diagnostics, options) !== exit.done;
  if (!loaded || !result || isRefused) return refuse(input, diagnostics, options, io);
  return deliver({ source: input, input, output, song: loaded.song }, result, diagnostics, options, io);
}

function steps(jobs: readonly Job[], { step }: Progress): OnPart {
  return (begun, doing, share) =>
    step(
      begun,
      jobs.length,
      jobs[begun - 1]?.part.trackName || `track ${jobs[begun - 1]?.part.track}`,
      doing,
      share,
    );
}

/** Where a result comes from, and where it goes. */
export interface Delivery {
  /** The music as the report names it. */
  readonly source: string;
  /** The music as the summary names it. */
  readonly input: string;
  readonly output: string;
  /** The music that was compiled. */
  readonly song: Song;
}

/** Puts a result in place, as a MIDI file or as a clip, and tells of it. */
export async function deliver(
  { source, input, output, song }: Delivery,
  result: Compiled,
  found: readonly Diagnostic[],
  options: DeliverOptions,
  io: Io,
): Promise<number> {
  const clip = isClip(output) ? await clipOf(song, result) : undefined;
  const diagnostics = [...found, ...(clip?.diagnostics ?? [])];
  const content = clip ? clip.value : result.bytes;
  if (!content || status(diagnostics, options) !== exit.done) return refuse(input, diagnostics, options, io);
  // Where each note belongs takes longer than the rest together: only for those who ask.
  const isTold = options.json && output !== '-';
  const decided = options.report !== undefined || isTold ? report(source, result.parts) : undefined;
  const failures = putOutputs([{ path: output, content }, ...reportFile(options, decided)], io);
  const all = [...diagnostics, ...failures];
  if (decided && isTold) printJson({ ...decided, output, diagnostics: jsonOf(all) }, io);
  else if (!options.quiet && !failures.some(isError)) {
    const proved = options.prove
      ? 'Proved: every note sounds as decided, and nothing else was changed.\n'
      : '';
    const kept = clip
      ? 'Written as a clip: notes carry their articulations, and no switches are in it.\n'
      : '';
    (output === '-' ? io.err : io.out)(`${summary(result.parts, input, output)}${kept}${proved}`);
  }
  return show(all, options, io);
}

function reportFile({ report: path }: DeliverOptions, decided: Report | undefined) {
  if (path === undefined || !decided) return [];
  return [{ path, content: `${JSON.stringify(withFormat(decided), null, 2)}\n` }];
}

/** What the model of the library hears wrong in a result, before it is put in place. */
export function proofFor(
  result: Compiled,
  { song }: Pick<LoadedJobs, 'song'>,
  output: string,
): readonly Diagnostic[] {
  const { value: heard, diagnostics } = readMidi(result.bytes, output, {
    maxBytes: Number.POSITIVE_INFINITY,
  });
  if (!heard) return diagnostics;
  return proofOf(heard, song, result, true).violations.map((violation): Diagnostic => {
    const { track, bar, beat, tick } = violation;
    const trackName = heard.tracks[(track ?? 1) - 1]?.name ?? '';
    const place = { kind: 'music', file: output, track: track ?? 1, trackName, bar, beat, tick } as const;
    return diagnostic('not-proved', place, violation.message, `nothing was written (${violation.kind})`);
  });
}

async function isScoreFile(input: string, io: Io): Promise<boolean> {
  if (input === '-') return false;
  const { value: head } = await readInput(input, 256, io);
  if (head === undefined || isMidi(head)) return false;
  const { isScore } = await import('../../score/index.js');
  return isScore(head);
}

/** Where the result goes. The input is never overwritten unless that was asked for. */
function outputOf(input: string, { output, inPlace, report: reportFile, map }: CompileOptions): string {
  const target = output ?? (inPlace ? input : undefined);
  if (target === undefined) throw new UsageError('say where the result goes: -o OUT.mid');
  if (!inPlace) refuseScoreName(target);
  if (isSameFile(input, target) && !inPlace)
    throw new UsageError(
      'the output is the input file: give it another name, or say --in-place if that is meant',
    );
  const files = map.map((text) => text.slice(text.lastIndexOf('=') + 1));
  if (files.some((file) => isSameFile(file, target)))
    throw new UsageError('the output is the map: give it another name');
  refuseReport(reportFile, target, (path) => [input, ...files].some((file) => isSameFile(file, path)));
  return target;
}

/**
 * Refuses a report that would go where the result goes, or over a file that is read.
 *
 * @param isRead whether a path leads to such a file
 */
export function refuseReport(
  report: string | undefined,
  target: string,
  isRead: (path: string) => boolean,
): void {
  if (report === '-' && target === '-')
    throw new UsageError('result and report cannot both go to standard output: give one of them a name');
  if (report !== undefined && (isSameFile(target, report) || isRead(report)))
    throw new UsageError('the report would overwrite another file of this command: give it another name');
}
