import { escapeText, type Outcome } from '../diagnostics/index.js';
import type { SheetTask } from '../sheet/index.js';
import type { HearOptions, HearPart, WavSink } from '../sound/index.js';
import { loadBank } from './bank.js';
import { status } from './context.js';
import { CannotWrite } from './files/problems.js';
import { partsToHear } from './hear-parts.js';
import { otherwiseHeard, problemOf } from './heard.js';
import { exit, type Io } from './io.js';
import { type PageSound, type Range, type SoundOptions, silent, tooLong } from './page-sound.js';
import { rendering } from './rendering.js';

const sampleRate = 48_000;

/** Renders what a sheet shows, as `hear` does: the same parts and bars. */
export async function renderedSound(
  task: SheetTask,
  range: Range,
  sink: WavSink,
  options: SoundOptions,
  io: Io,
): Promise<Outcome<PageSound>> {
  const { value: bank, diagnostics } = await loadBank(options.bank, io);
  if (!bank || status(diagnostics, options) !== exit.done) return { value: undefined, diagnostics };
  const { parts, named } = partsToHear(task, false);
  const fromMs = range?.fromMs ?? 0;
  const long = tooLong(
    Math.min(range?.toMs ?? Number.POSITIVE_INFINITY, endOf(parts)) - fromMs,
    task.song.file,
  );
  if (long) return silent(long);
  const hearing: HearOptions = {
    sampleRate,
    ...(options.part.length > 0 ? { parts: named(options.part) } : {}),
    ...(range ? { range } : {}),
  };
  try {
    const result = await rendering(parts, bank, hearing, { format: '16', sink }, options, io);
    if (!result.ok) return silent(problemOf(result.problem, bank.file, task.song.file));
    const lengthMs = (1000 * result.value.frames) / sampleRate;
    const from = `played with ${escapeText(bank.file)}`;
    return { value: { fromMs, lengthMs, from, lines: otherwiseHeard(result.value) }, diagnostics };
  } catch (error) {
    if (error instanceof CannotWrite) return silent(...error.diagnostics);
    throw error;
  }
}

function endOf(parts: readonly HearPart[]): number {
  let last = 0;
  for (const { notes } of parts) for (const { endMs } of notes) last = Math.max(last, endMs);
  return last;
}
