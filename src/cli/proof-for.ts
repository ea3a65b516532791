import { proofOf } from '../api/index.js';
import type { Compiled } from '../compile/index.js';
import { type Diagnostic, diagnostic } from '../diagnostics/index.js';
import { readMidi } from '../midi/index.js';
import type { LoadedJobs } from './jobs.js';

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
