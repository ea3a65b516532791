import { type CompiledCue, type Cue, compileCue } from '../cue/index.js';
import type { Diagnostic } from '../diagnostics/index.js';
import type { CommonOptions } from './context.js';
import { chosenParts, loadCue, loadMaterial } from './cue-files.js';
import { type Io, UsageError } from './io.js';
import type { PartOptions } from './jobs.js';
import { asksForTiming } from './timing.js';

/** What a command was given a cue for. */
export interface CuePartOptions {
  /** Names of parts of a cue; all of them where there are none. */
  readonly part: readonly string[];
}

/** A cue with what it compiles to, and everything that was found on the way. */
export interface CueResult {
  readonly cue?: Cue;
  readonly compiled?: CompiledCue;
  readonly diagnostics: readonly Diagnostic[];
}

/** Reads and compiles a cue. */
export async function compiledCue(
  file: string,
  parts: readonly string[],
  options: CommonOptions,
  io: Io,
): Promise<CueResult> {
  const { value: whole, diagnostics: ofCue } = await loadCue(file, options, io);
  if (!whole) return { diagnostics: ofCue };
  const cue = chosenParts(whole, parts);
  const { value: material, diagnostics: ofFiles } = await loadMaterial(cue, options, io);
  const { value, diagnostics = [] } = material ? compileCue(cue, material) : { value: undefined };
  return { cue, ...(value ? { compiled: value } : {}), diagnostics: [...ofCue, ...ofFiles, ...diagnostics] };
}

/** A cue says all of this itself. */
export function refuseOptionsOfRecordings(options: Partial<PartOptions>): void {
  const { map = [], track = [], channel, restate = [] } = options;
  if (map.length > 0) throw new UsageError('a cue names its maps itself: leave --map out');
  if (track.length > 0 || channel !== undefined)
    throw new UsageError('a cue names its tracks itself: leave --track and --channel out');
  if (restate.length > 0)
    throw new UsageError("a cue's maps say when to send switches again: leave --restate out");
  if (asksForTiming({ pull: [], ...options }))
    throw new UsageError('a cue has its timing in itself: leave timing options out');
}

/** Parts of a cue are named in a cue only. */
export function refuseOptionsOfCues({ part }: CuePartOptions): void {
  if (part.length > 0) throw new UsageError('--part names a part of a cue: a recording has tracks (--track)');
}
