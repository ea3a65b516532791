import { proofOf } from '../../api/index.js';
import { clockOf } from '../../midi/index.js';
import type { Proof } from '../../prove/index.js';
import { proofJson, proofText } from '../../report/index.js';
import { type At, parseAt, placesWithin } from '../at.js';
import { type CommonOptions, loadSong, show } from '../context.js';
import { besideCue } from '../cue-files.js';
import { type CuePartOptions, type CueResult, compiledCue } from '../cue-input.js';
import { exit, type Io, UsageError } from '../io.js';
import { jsonOf, printJson } from '../json.js';

export interface ProveCueOptions extends CommonOptions, CuePartOptions {
  /** The bars that are told. */
  readonly at?: string;
}

/**
 * `keyslip prove CUE.yaml`, or `prove OUT.mid --cue CUE.yaml`: proves what a cue was compiled to against the cue. The whole
 * file is played; `--part` and `--at` choose what is told.
 *
 * @param output the compiled file; the one that the cue names, if absent
 */
export async function proveCue(
  file: string,
  output: string | undefined,
  options: ProveCueOptions,
  io: Io,
): Promise<number> {
  const at = options.at === undefined ? undefined : parseAt(options.at);
  const result = await compiledCue(file, [], options, io);
  const { cue, compiled } = result;
  if (!cue || !compiled) return refused(file, result, options, io);
  const wrong = options.part.find((name) => !cue.parts.some((part) => part.name === name));
  if (wrong !== undefined) throw new UsageError(`the cue has no part "${wrong}"`);
  const read = await loadSong(output ?? besideCue(cue, cue.output), options, io);
  const diagnostics = [...result.diagnostics, ...read.diagnostics];
  if (!read.value) return refused(file, { diagnostics }, options, io);
  const whole = proofOf(read.value, compiled.planned.song, compiled, true);
  const proof = chosen(whole, options.part, at, compiled);
  if (options.json) printJson({ ...proofJson(proof), diagnostics: jsonOf(diagnostics) }, io);
  else if (!options.quiet || proof.violations.length > 0) io.out(proofText(proof));
  const status = show(diagnostics, options, io);
  return proof.violations.length > 0 ? exit.errors : status;
}

function refused(
  file: string,
  { diagnostics }: Pick<CueResult, 'diagnostics'>,
  options: ProveCueOptions,
  io: Io,
): number {
  if (options.json) printJson({ input: file, diagnostics: jsonOf(diagnostics) }, io);
  return show(diagnostics, options, io);
}

/** What a proof says of some parts of a cue, layers included, and of some bars. What concerns the whole file stays. */
function chosen(
  proof: Proof,
  names: readonly string[],
  at: At | undefined,
  { planned }: NonNullable<CueResult['compiled']>,
): Proof {
  if (names.length === 0 && !at) return proof;
  const jobs = planned.jobs.filter(({ name }) => names.length === 0 || names.includes(name));
  const isTold = (track: number, channel: number | null | undefined) =>
    jobs.some(({ part }) => part.track === track && (channel == null || part.channel === channel));
  const parts = proof.parts.filter(({ track, channel }) => isTold(track, channel));
  const tracks = new Set(parts.map(({ track }) => track));
  const within = at && placesWithin(at, clockOf(planned.song, 1));
  return {
    ...proof,
    parts,
    notes: parts.reduce((sum, { notes }) => sum + notes, 0),
    violations: proof.violations.filter(({ track, bar, beat }) => {
      if (track != null && !tracks.has(track)) return false;
      if (!within || bar == null || beat == null) return true;
      return within({ bar, beat });
    }),
  };
}
