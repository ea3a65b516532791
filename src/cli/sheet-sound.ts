import type { Outcome } from '../diagnostics/index.js';
import type { SheetSound, SheetTask } from '../sheet/index.js';
import { oggSink } from '../sound/index.js';
import { parseAt } from './at.js';
import { isSameFile } from './files/same.js';
import { rangeOf } from './hear-parts.js';
import { lengthText, problemOf } from './heard.js';
import { type Io, UsageError } from './io.js';
import { type PageSound, type SoundOptions, silent } from './page-sound.js';
import { renderedSound } from './rendered-sound.js';
import { soundOfFile } from './sound-file.js';

/** Refuses what makes no sense together. */
export function refuseSound(options: Partial<SoundOptions>, output: string, isPage: boolean): void {
  const { sound, bank, soundFrom } = options;
  if (sound === undefined && bank !== undefined)
    throw new UsageError('--bank is what --sound is rendered with: give --sound too');
  if (typeof sound !== 'string' && soundFrom !== undefined)
    throw new UsageError('--sound-from says where the file of --sound begins: give --sound OUT.wav');
  if (sound === undefined) return;
  if (!isPage) throw new UsageError('a score for a copyist has no sound: leave --sound out');
  if (sound === '-') throw new UsageError('the sound of a sheet is read from a file: --sound OUT.wav');
  if (typeof sound === 'string' && bank !== undefined)
    throw new UsageError('the sound is there already: leave --bank out, or the file behind --sound');
  for (const file of [sound, bank])
    if (typeof file === 'string' && isSameFile(file, output))
      throw new UsageError('the sheet would overwrite its own input: give it another name');
}

/** The sound of a sheet, and what is told of it on standard error. */
export interface LoadedSound {
  readonly sound: SheetSound;
  readonly told: readonly string[];
}

/** Renders the sound of a sheet, or takes it from a file, and compresses it. */
export async function soundOfSheet(
  task: SheetTask,
  options: SoundOptions,
  io: Io,
): Promise<Outcome<LoadedSound>> {
  const pieces: Uint8Array[] = [];
  const sink = await oggSink((bytes) => {
    pieces.push(bytes);
  });
  if (!sink.ok) return silent(problemOf(sink.problem, '', task.song.file));
  const range = options.at === undefined ? undefined : rangeOf(parseAt(options.at), task);
  const { sound: file } = options;
  const { value: made, diagnostics } =
    file === true
      ? await renderedSound(task, range, sink.value, options, io)
      : await soundOfFile(file, task, range, sink.value, options, io);
  if (!made) return { value: undefined, diagnostics };
  const { fromMs, lengthMs } = made;
  const ogg = Buffer.concat(pieces);
  return {
    value: { sound: { ogg, fromMs, lengthMs }, told: toldOf(made, ogg.length) },
    diagnostics,
  };
}

function toldOf({ lengthMs, from, lines }: PageSound, bytes: number): readonly string[] {
  const mb = (size: number) => `${(size / 1e6).toFixed(2)} MB`;
  return [
    `  sound: ${from}, ${lengthText(lengthMs / 1000)}, ${mb(bytes)} compressed, ${mb((bytes * 4) / 3)} of the page`,
    ...lines,
    '  Turn the level of headphones down before you listen.',
  ];
}
