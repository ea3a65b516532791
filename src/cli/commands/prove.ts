import { proofOf, withoutSwitches } from '../../api/index.js';
import { compileParts } from '../../compile/index.js';
import type { Diagnostic } from '../../diagnostics/index.js';
import { proofJson, proofText } from '../../report/index.js';
import { jsonOf, loadSong, printJson, show } from '../context.js';
import { exit, type Io } from '../io.js';
import { loadJobs, type PartOptions } from '../jobs.js';

export interface ProveOptions extends PartOptions {
  readonly against?: string;
}

/** `keyslip prove`: plays a compiled file to a model of the library, and says whether it sounds as meant. */
export async function proveCommand(file: string, options: ProveOptions, io: Io): Promise<number> {
  const read = await loadSong(file, options, io);
  const output = read.value;
  const isCompared = options.against !== undefined;
  const { value: loaded, diagnostics: found } = isCompared
    ? await loadJobs(await loadSong(options.against ?? '', options, io), options, io)
    : await loadJobs(read, { ...options, ...noTiming }, io);
  const diagnostics = isCompared ? [...read.diagnostics, ...found] : found.filter(isOfTheMusic);
  if (!output || !loaded) {
    if (options.json) printJson({ file, diagnostics: jsonOf(diagnostics) }, io);
    return show(diagnostics, options, io);
  }
  const { song, jobs } = isCompared ? loaded : withoutSwitches(loaded);
  const switched = compileParts(song, jobs);
  const proof = proofOf(output, song, switched, isCompared);
  if (options.json) printJson(proofJson(proof), io);
  else if (!options.quiet || proof.violations.length > 0) io.out(proofText(proof));
  const status = show([...diagnostics, ...switched.diagnostics], options, io);
  return proof.violations.length > 0 ? exit.errors : status;
}

/** Several channels are no surprise in a file whose map sends notes to channels. */
function isOfTheMusic({ code }: Diagnostic): boolean {
  return code !== 'several-channels';
}

/** Without the input there is nothing that timing options could be measured by: the music is taken as it stands. */
const noTiming = { compensate: false, joins: false, pull: [], preroll: 0 } as const;
