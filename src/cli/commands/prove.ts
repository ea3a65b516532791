import { proofOf, withoutSwitches } from '../../api/index.js';
import { compileParts } from '../../compile/index.js';
import type { Diagnostic } from '../../diagnostics/index.js';
import { proofJson, proofText } from '../../report/index.js';
import { loadSong, show } from '../context.js';
import {
  type CuePartOptions,
  isCueFile,
  refuseOptionsOfCues,
  refuseOptionsOfRecordings,
} from '../cue-input.js';
import { exit, type Io, UsageError } from '../io.js';
import { loadJobs, type PartOptions } from '../jobs.js';
import { jsonOf, printJson } from '../json.js';
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
  const read = await loadSong(file, options, io);
  const output = read.value;
  const isCompared = options.against !== undefined;
  const { value: loaded, diagnostics: found } = isCompared
    ? await loadJobs(await loadSong(options.against ?? '', options, io), options, io)
    : await loadJobs(read, { ...options, ...noTiming }, io);
  const diagnostics = isCompared ? [...read.diagnostics, ...found] : found.filter(isOfTheMusic);
  if (!output || !loaded) {
    if (options.json) printJson({ input: file, diagnostics: jsonOf(diagnostics) }, io);
    return show(diagnostics, options, io);
  }
  const { song, jobs } = isCompared ? loaded : withoutSwitches(loaded);
  const switched = compileParts(song, jobs);
  const proof = proofOf(output, song, switched, isCompared);
  const all = [...diagnostics, ...switched.diagnostics];
  if (options.json) printJson({ ...proofJson(proof), diagnostics: jsonOf(all) }, io);
  else if (!options.quiet || proof.violations.length > 0) io.out(proofText(proof));
  const status = show(all, options, io);
  return proof.violations.length > 0 ? exit.errors : status;
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
