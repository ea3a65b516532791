import type { Diagnostic, Outcome } from '../diagnostics/index.js';
import { defaultLimits, type ScoreLimits } from './limits.js';
import { writePerformance } from './midi/index.js';
import { type Performance, type PlayOptions, play } from './play/index.js';
import { readWithFindings } from './read.js';

/** A score as it is played, or the reasons why it cannot be. */
export interface PlayedScore {
  readonly performance: Performance | undefined;
  readonly diagnostics: readonly Diagnostic[];
}

/** Reads and plays a score; the file's name is for messages. */
export function playScore(
  bytes: Uint8Array,
  file: string,
  options: PlayOptions = {},
  limits: ScoreLimits = {},
): PlayedScore {
  const all = { ...defaultLimits, ...limits };
  const { score, found } = readWithFindings(bytes, file, all);
  const last = found.at(-1);
  const performance = score && last ? play(score, last, all.maxNotes, options) : undefined;
  const hasErrors = found.some((one) => one.hasErrors);
  return { performance: hasErrors ? undefined : performance, diagnostics: found.flatMap((one) => one.all) };
}

/** A score as bytes of a Standard MIDI File of format 1 whose tracks carry the score's marks as texts. */
export function scoreToMidi(
  bytes: Uint8Array,
  file: string,
  options: PlayOptions = {},
  limits: ScoreLimits = {},
): Outcome<Uint8Array> {
  const { performance, diagnostics: found } = playScore(bytes, file, options, limits);
  if (!performance) return { value: undefined, diagnostics: found };
  const { value, diagnostics } = writePerformance(performance, file);
  return { value, diagnostics: [...found, ...diagnostics] };
}
