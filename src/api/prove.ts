import { compileParts, type Stored, takeStored, withPreroll } from '../compile/index.js';
import type { Diagnostic } from '../diagnostics/index.js';
import type { PartProof, Violation } from '../prove/index.js';
import { asHeard } from './as-heard.js';
import { type MusicOptions, type ReadMusic, readMusic, songOf } from './music.js';
import { proofOf } from './proof.js';
import { withoutSwitches } from './without-switches.js';

export interface ProveOptions extends MusicOptions {
  /** The recording that the file was compiled from; `timing` is then what it was compiled with, as the file says if it is absent. */
  readonly against?: Uint8Array;
}

/** What a model of the library hears in a compiled file. */
export interface ProveResult {
  /** Whether every note sounds as meant and, where there is a recording, nothing of it is missing or changed. */
  readonly isProved: boolean;
  readonly violations: readonly Violation[];
  readonly parts: readonly PartProof[];
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * Plays a compiled file to a model of the library.
 *
 * @param midi the compiled file
 */
export function prove(midi: Uint8Array, { against, timing, ...options }: ProveOptions): ProveResult {
  const output = songOf(midi, options.name ?? 'out.mid');
  const read = against
    ? readMusic(against, { ...options, ...(timing ? { timing } : {}) })
    : readMusic(midi, options);
  const found = against ? [...output.diagnostics, ...read.diagnostics] : read.diagnostics;
  if (!output.value || !read.value) return { isProved: false, violations: [], parts: [], diagnostics: found };
  const { song: sent, stored } = takeStored(output.value);
  const { song, jobs } = against
    ? asStored(read.value, timing ? undefined : stored)
    : withoutSwitches(read.value);
  const heard = against ? undefined : asHeard(sent, { song, jobs }, stored);
  const switched = heard?.decided ?? compileParts(song, jobs);
  const { violations, parts } = proofOf(output.value, song, switched, against !== undefined);
  const diagnostics = [...found, ...switched.diagnostics];
  return { isProved: violations.length === 0, violations, parts, diagnostics };
}

/** The music with the timing, and the bars before it, that a compiled file says. */
function asStored({ song, jobs }: ReadMusic, stored: Stored | undefined): ReadMusic {
  if (!stored) return { song, jobs };
  const timed = jobs.map((job) => {
    const timing = stored.timingOf(job.part);
    return timing ? { ...job, timing } : job;
  });
  return { song: (stored.preroll > 0 && withPreroll(song, stored.preroll)) || song, jobs: timed };
}
