import { compileParts } from '../compile/index.js';
import type { Diagnostic } from '../diagnostics/index.js';
import type { PartProof, Violation } from '../prove/index.js';
import { type MusicOptions, readMusic, songOf } from './music.js';
import { proofOf } from './proof.js';
import { withoutSwitches } from './without-switches.js';

export interface ProveOptions extends MusicOptions {
  /** The recording that the file was compiled from; `timing` is then what it was compiled with. */
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
  const { song, jobs } = against ? read.value : withoutSwitches(read.value);
  const switched = compileParts(song, jobs);
  const { violations, parts } = proofOf(output.value, song, switched, against !== undefined);
  const diagnostics = [...found, ...switched.diagnostics];
  return { isProved: violations.length === 0, violations, parts, diagnostics };
}
