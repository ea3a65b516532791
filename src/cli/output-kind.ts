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

/** A sound is not written into a file whose name promises something else. */
export function refuseSoundName(output: string, format: string): void {
  const [, ending = ''] = /\.([a-z0-9]+)$/iu.exec(output) ?? [];
  const promised = ending.toLowerCase();
  const right = format === 'ogg' ? ['ogg', 'oga'] : ['wav', 'wave'];
  if (!named.has(promised) || right.includes(promised)) return;
  const hint = format === 'ogg' ? '-o OUT.ogg' : '-o OUT.wav, or -o OUT.ogg with --format ogg';
  throw new UsageError(`the output would be no .${promised} file: ${hint}`);
}

/** Endings that promise something. */
const named = new Set([
  ...['wav', 'wave', 'ogg', 'oga', 'opus', 'mp3', 'flac', 'aif', 'aiff', 'aac', 'm4a'],
  ...['mid', 'midi', 'midi2', 'smf', 'musicxml', 'mxl', 'xml', 'mei', 'html', 'yaml', 'yml', 'json'],
  ...['sf2', 'sf3', 'dls'],
]);
