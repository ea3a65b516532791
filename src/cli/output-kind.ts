import { UsageError } from './io.js';

/** Whether a file of that name is to be a MIDI clip file (M2-116-U). */
export function isClip(output: string): boolean {
  return /\.midi2$/iu.test(output);
}

/** Whether a file of that name is to be a score for a copyist. */
export function isMusicXml(output: string): boolean {
  return /\.musicxml$/iu.test(output);
}

/** A file whose name promises a score, and which would be something else, is not written. */
export function refuseScoreName(output: string): void {
  if (/\.(musicxml|mxl|mei)$/iu.test(output))
    throw new UsageError('the output would be no score: keyslip sheet -o SCORE.musicxml writes one');
}
