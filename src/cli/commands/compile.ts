import { basename } from 'node:path';
import { type Compiled, compile, type OnPart, withStored } from '../../compile/index.js';
import { type Diagnostic, type Outcome, quoted } from '../../diagnostics/index.js';
import type { ArticulationMap } from '../../map/index.js';
import { isMidi } from '../../midi/index.js';
import { loadSong, status } from '../context.js';
import { isCueFile } from '../cue-name.js';
import { type DeliverOptions, type Delivery, deliver } from '../deliver.js';
import { readInput } from '../files/read.js';
import { exit, type Io, UsageError } from '../io.js';
import { type LoadedJobs, loadJobs, type PartOptions } from '../jobs.js';
import { isClip } from '../output-kind.js';
import { type Place, placesOf } from '../places.js';
import { type Progress, progressLine } from '../progress.js';
import { refuse } from '../refuse.js';

export interface CompileOptions extends PartOptions, DeliverOptions {
  /** A file, or a folder. */
  readonly output?: string;
  readonly inPlace?: boolean;
  /** Likewise. */
  readonly report?: string;
}

/** What several recordings have in common, and how far they are. */
interface Together {
  readonly isSeveral: boolean;
  /** Maps that were read already. */
  readonly maps: Map<string, Outcome<ArticulationMap>>;
  readonly progress: Progress;
}

/**
 * `keyslip compile`: reads, decides, and puts the switched files in place, all of them or none, or says why not. Every
 * error of every recording is told.
 */
export async function compileCommand(
  inputs: readonly string[],
  options: CompileOptions,
  io: Io,
): Promise<number> {
  const cue = inputs.find(isCueFile);
  if (cue !== undefined)
    throw new UsageError(`a cue is compiled by another command: keyslip cue ${quoted(cue)}`);
  const { places, diagnostics: ofFolders } = placesOf(inputs, options);
  for (const { input } of options.inPlace ? places : [])
    if (await isScoreFile(input, io))
      throw new UsageError('a score cannot take the result in its place: say where it goes with -o OUT.mid');
  const together = {
    isSeveral: places.length > 1,
    maps: new Map<string, Outcome<ArticulationMap>>(),
    progress: progressLine(io, options),
  };
  const done: Delivery[] = [];
  const found: Diagnostic[] = [...ofFolders];
  for (const place of places) {
    const { value: delivery, diagnostics } = await compileOne(place, together, options, io);
    found.push(...diagnostics);
    if (delivery) done.push(delivery);
  }
  together.progress.end();
  // What is wrong with a map is told once.
  const diagnostics = [...new Set(found)];
  if (done.length < places.length || status(diagnostics, options) !== exit.done)
    return refuse(
      places.map(({ input }) => input),
      diagnostics,
      options,
      io,
    );
  return deliver(done, diagnostics, options, io);
}

async function compileOne(
  place: Place,
  { isSeveral, maps, progress }: Together,
  options: CompileOptions,
  io: Io,
): Promise<Outcome<Delivery>> {
  const { input, output } = place;
  const song = await loadSong(input, options, io);
  const { value: read, diagnostics: found } = isSeveral
    ? await told(input, loadJobs(song, options, io, maps))
    : await loadJobs(song, options, io, maps);
  const loaded = read && (options.bare || isClip(output) ? read : saying(read, options));
  const onPart = loaded && steps(loaded, isSeveral ? `${basename(input)}, ` : '', progress);
  const compiled = loaded && compile(loaded.song, loaded.jobs, loaded.original, onPart);
  const result: Compiled | undefined = compiled?.value;
  if (options.prove) progress.step(1, 1, output, 'proving');
  const proof =
    options.prove && loaded && result
      ? (await import('../proof-for.js')).proofFor(result, loaded, output)
      : [];
  return {
    value: loaded && result && { ...place, source: input, song: loaded.song, result },
    diagnostics: [...found, ...(compiled?.diagnostics ?? []), ...proof],
  };
}

/** The same jobs on a song that says what they are compiled with. */
function saying(loaded: LoadedJobs, { preroll }: CompileOptions): LoadedJobs {
  const song = withStored(loaded.song, loaded.jobs, preroll);
  return { ...loaded, song, original: loaded.original === loaded.song ? song : loaded.original };
}

/** A command line that does not suit one of several recordings says which. */
async function told<T>(input: string, outcome: Promise<T>): Promise<T> {
  try {
    return await outcome;
  } catch (error) {
    if (!(error instanceof UsageError)) throw error;
    throw new UsageError(`${quoted(input)}: ${error.message}`, error.hint);
  }
}

function steps({ jobs }: LoadedJobs, of: string, { step }: Progress): OnPart {
  return (begun, doing, share) => {
    const part = jobs[begun - 1]?.part;
    step(begun, jobs.length, `${of}${part?.trackName || `track ${part?.track}`}`, doing, share);
  };
}

async function isScoreFile(input: string, io: Io): Promise<boolean> {
  if (input === '-') return false;
  const { value: head } = await readInput(input, 256, io);
  if (head === undefined || isMidi(head)) return false;
  const { isScore } = await import('../../score/index.js');
  return isScore(head);
}
