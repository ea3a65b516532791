import { type Diagnostic, diagnostic, escapeText, type Outcome } from '../diagnostics/index.js';
import type { SheetTask } from '../sheet/index.js';
import { openWav, passOn, type Wav, type WavSink } from '../sound/index.js';
import { readSound } from './files/sound.js';
import { partsToHear, placeMs } from './hear-parts.js';
import { lengthText } from './heard.js';
import type { Io } from './io.js';
import { type PageSound, type Range, type SoundOptions, silent, tooLong } from './page-sound.js';
import { shareLine } from './progress.js';

/** A note that begins so shortly before the end of a sound is missed by nobody. Unit: ms. */
const patience = 50;

/** Takes the sound of a sheet from a WAV file; of some bars, their stretch of it. */
export async function soundOfFile(
  file: string,
  task: SheetTask,
  range: Range,
  sink: WavSink,
  options: SoundOptions,
  io: Io,
): Promise<Outcome<PageSound>> {
  const beginMs = options.soundFrom === undefined ? 0 : placeMs('--sound-from', options.soundFrom, task);
  const progress = shareLine(io, options);
  const { value, diagnostics } = await readSound(file, io, async (open): Promise<Outcome<PageSound>> => {
    const wav = await openWav(open());
    const fromMs = Math.max(beginMs, range?.fromMs ?? beginMs);
    const wanted = range && { fromMs: fromMs - beginMs, toMs: Math.max(0, range.toMs - beginMs) };
    const problem = await problemIn(wav, wanted, file);
    if (problem) return silent(problem);
    const all = Math.max(1, wav.frames ?? 1);
    const frames = await passOn(wav, sink, wanted, (frame) => progress.step(frame / all, 'compressing'));
    const lengthMs = (1000 * frames) / wav.format.sampleRate;
    return { value: { fromMs, lengthMs, from: escapeText(file), lines: [] }, diagnostics: [] };
  }).finally(progress.end);
  return { value, diagnostics: value ? shortOf(value, range, task, file) : diagnostics };
}

async function problemIn(
  { format, frames, close }: Wav,
  wanted: Range,
  file: string,
): Promise<Diagnostic | undefined> {
  const { channels, sampleRate } = format;
  const whole = frames === undefined ? 0 : (1000 * frames) / sampleRate;
  const problem =
    channels > 2
      ? diagnostic(
          'wav-channels',
          { kind: 'bytes', file, offset: 22 },
          `it has ${channels} channels`,
          'bounce two channels, left and right',
        )
      : tooLong(wanted ? Math.min(whole, wanted.toMs - wanted.fromMs) : whole, file);
  if (problem) await close();
  return problem;
}

/** Says where a sound ends before the music does: it may be that of other music. */
function shortOf(
  { fromMs, lengthMs }: PageSound,
  range: Range,
  task: SheetTask,
  file: string,
): readonly Diagnostic[] {
  let last = 0;
  for (const { notes } of partsToHear(task, false).parts)
    for (const { onsetMs, delayMs = 0 } of notes)
      if (onsetMs < (range?.toMs ?? Number.POSITIVE_INFINITY)) last = Math.max(last, onsetMs + delayMs);
  const end = fromMs + lengthMs;
  if (last + patience < end) return [];
  const message = `the sound ends at ${lengthText(end / 1000)} of the music, but its last note is heard at ${lengthText(last / 1000)}`;
  const hint = 'is it the sound of this music, whole, from its first bar? --sound-from says where it begins';
  return [diagnostic('sound-short', { kind: 'file', file }, message, hint)];
}
