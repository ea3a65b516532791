import { asHeard, proofOf, withoutSwitches } from '../../api/index.js';
import { compileParts, type Stored, takeStored } from '../../compile/index.js';
import type { Diagnostic } from '../../diagnostics/index.js';
import type { Song } from '../../midi/index.js';
import { proofJson, proofText } from '../../report/index.js';
import { loadSong, show } from '../context.js';
import { type CuePartOptions, refuseOptionsOfCues, refuseOptionsOfRecordings } from '../cue-input.js';
import { isCueFile } from '../cue-name.js';
import { exit, type Io, UsageError } from '../io.js';
import { type LoadedJobs, loadJobs, type PartOptions } from '../jobs.js';
import { jsonOf, printJson } from '../json.js';
import { toldOptions } from '../stored.js';
import { asksForTiming } from '../timing.js';
import { proveCue } from './prove-cue.js';

export interface ProveOptions extends PartOptions, CuePartOptions {
  /** The cue that the file was compiled from. */
  readonly cue?: string;
  /** Of a cue: the bars that are told. */
  readonly at?: string;
  readonly against?: string;
}

/** `keyslip prove`: plays a compiled file to a model of the library, and says whether it sounds as meant. */
export async function proveCommand(file: string, options: ProveOptions, io: Io): Promise<number> {
  const cue = cueFor(file, options);
  if (cue !== undefined) return proveCue(cue, cue === file ? undefined : file, options, io);
  const isCompared = options.against !== undefined;
  const { output, loaded, said, diagnostics } = await (isCompared ? readCompared : readAlone)(
    file,
    options,
    io,
  );
  if (!output || !loaded) {
    if (options.json) printJson({ input: file, diagnostics: jsonOf(diagnostics) }, io);
    return show(diagnostics, options, io);
  }
  const { song, jobs } = isCompared ? loaded : withoutSwitches(loaded);
  const heard = isCompared ? undefined : asHeard(output, { song, jobs }, said);
  const switched = heard?.decided ?? compileParts(song, jobs);
  const proof = proofOf(output, song, switched, isCompared);
  const all = [...diagnostics, ...switched.diagnostics];
  if (options.json) printJson({ ...proofJson(proof), diagnostics: jsonOf(all) }, io);
  else if (!options.quiet || proof.violations.length > 0) io.out(`${proofText(proof)}${toldOptions(said)}`);
  const status = show(all, options, io);
  return proof.violations.length > 0 ? exit.errors : status;
}

/** A file to be proved, and the music that it is proved by. */
interface ToProve {
  readonly output: Song | undefined;
  readonly loaded: LoadedJobs | undefined;
  /** What the file says that it was compiled with, as far as that is used. */
  readonly said: Stored | undefined;
  readonly diagnostics: readonly Diagnostic[];
}

/** Without the input, the music is what the file itself has. */
async function readAlone(file: string, options: ProveOptions, io: Io): Promise<ToProve> {
  const read = await loadSong(file, options, io);
  const { value, diagnostics } = await loadJobs(read, { ...options, ...noTiming }, io);
  const said = value?.jobs.some(({ part }) => value.stored?.timingOf(part)?.compensate);
  return {
    output: read.value,
    loaded: value,
    said: said ? value?.stored : undefined,
    diagnostics: diagnostics.filter(isOfTheMusic),
  };
}

/** The recording that a file was compiled from, with the options that the file says, unless some are given. */
async function readCompared(file: string, options: ProveOptions, io: Io): Promise<ToProve> {
  const { value: output, diagnostics: ofFile } = await loadSong(file, options, io);
  const { stored, diagnostics: ofStored = [] } = output ? takeStored(output) : {};
  const said = asksForTiming(options) ? undefined : stored;
  const read = await loadSong(options.against ?? '', options, io);
  const asked = said ? { ...options, preroll: said.preroll } : options;
  const { value, diagnostics } = await loadJobs(read, asked, io);
  const jobs = value?.jobs.map((job) => {
    const timing = said?.timingOf(job.part);
    return timing ? { ...job, timing } : job;
  });
  return {
    output,
    loaded: value && jobs && { ...value, jobs },
    said,
    diagnostics: [...ofFile, ...ofStored, ...diagnostics],
  };
}

/** The cue that a file is proved by; undefined where a recording or the file itself serves. */
function cueFor(file: string, options: ProveOptions): string | undefined {
  const cue = options.cue ?? (isCueFile(file) ? file : undefined);
  if (cue === undefined) {
    refuseOptionsOfCues(options);
    if (options.at !== undefined) throw new UsageError('--at goes with a cue');
    return undefined;
  }
  refuseOptionsOfRecordings(options);
  if (options.against !== undefined)
    throw new UsageError('a cue names its recording itself: leave --against out');
  return cue;
}

/** Several channels are no surprise in a file whose map sends notes to channels. */
function isOfTheMusic({ code }: Diagnostic): boolean {
  return code !== 'several-channels';
}

/** Without the input there is nothing that timing options could be measured by: the music is taken as it stands. */
const noTiming = { compensate: false, joins: false, pull: [], preroll: 0 } as const;
