import { isCue, readCue } from '../../cue/index.js';
import { escapeText, type Outcome, plural } from '../../diagnostics/index.js';
import { readMidi } from '../../midi/index.js';
import type { SheetTask } from '../../sheet/index.js';
import {
  type ByteSink,
  type Heard,
  type HearOptions as Hearing,
  type HearPart,
  oggSink,
  type Result,
  type WavSink,
  wavSink,
} from '../../sound/index.js';
import { parseAt } from '../at.js';
import { type LoadedBank, loadBank } from '../bank.js';
import { limits, show, status } from '../context.js';
import { overwrites } from '../cue-files.js';
import { CannotWrite } from '../files/problems.js';
import { readInput } from '../files/read.js';
import { isSameFile } from '../files/same.js';
import { type FileStream, streamTo } from '../files/stream.js';
import { leftOver } from '../files/temporary.js';
import { clicksOf, partsToHear, rangeOf } from '../hear-parts.js';
import { lengthText, otherwiseHeard, problemOf } from '../heard.js';
import { exit, type Io, UsageError } from '../io.js';
import type { PartOptions } from '../jobs.js';
import { jsonOf, printJson } from '../json.js';
import { refuseSoundName } from '../output-kind.js';
import { refuse } from '../refuse.js';
import { rendering } from '../rendering.js';
import { cueTask, songTask } from '../sheet-tasks.js';
import { asksForTiming } from '../timing.js';

export interface HearOptions extends PartOptions {
  readonly output?: string;
  readonly bank?: string;
  readonly part: readonly string[];
  readonly solo: readonly string[];
  readonly at?: string;
  readonly before?: boolean;
  readonly click?: boolean;
  readonly rate: '44100' | '48000';
  readonly format: '16' | '24' | 'float' | 'ogg';
}

/** `keyslip hear`: renders the compiled music with a bank of General MIDI sounds. */
export async function hearCommand(input: string, options: HearOptions, io: Io): Promise<number> {
  const output = outputOf(input, options);
  const at = options.at === undefined ? undefined : parseAt(options.at);
  const { value: task, diagnostics: ofMusic } = await load(input, output, options, io);
  const { value: bank, diagnostics: ofBank } = await loadBank(options.bank, io);
  const found = [...ofMusic, ...ofBank];
  if (!task || !bank || status(found, options) !== exit.done) return refuse(input, found, options, io);
  refuseSoundName(output, options.format);
  const asPlayed = options.before === true;
  const { parts, named } = partsToHear(task, asPlayed);
  const range = at && rangeOf(at, task);
  const hearing: Hearing = {
    sampleRate: options.rate === '44100' ? 44_100 : 48_000,
    asPlayed,
    ...(options.part.length > 0 ? { parts: named(options.part) } : {}),
    ...(options.solo.length > 0 ? { solo: named(options.solo) } : {}),
    ...(options.click ? { clicks: clicksOf(task) } : {}),
    ...(range ? { range } : {}),
  };
  const { value: heard, diagnostics: ofSound } = await render(parts, bank, hearing, output, options, io);
  const all = [...found, ...ofSound];
  if (!heard) return refuse(input, all, options, io);
  if (options.json) printJson({ input, output, bank: bank.file, ...heard, diagnostics: jsonOf(all) }, io);
  else if (!options.quiet) io.out(told(heard, { input, output, bank: bank.file }, hearing));
  return show(all, options, io);
}

/** Reads a cue or a MIDI file, whichever it is, and compiles it. */
async function load(
  input: string,
  output: string,
  options: HearOptions,
  io: Io,
): Promise<Outcome<SheetTask>> {
  const maxMidi = options.maxMidi ?? limits.midi;
  const maxCue = options.maxMap ?? limits.map;
  const { value: bytes, diagnostics } = await readInput(input, Math.max(maxMidi, maxCue), io);
  if (!bytes) return { value: undefined, diagnostics };
  if (isCue(bytes) || /\.ya?ml$/iu.test(input)) {
    const { map, track, channel, restate } = options;
    const isAsked = map.length + track.length + restate.length > 0 || channel !== undefined;
    if (isAsked || asksForTiming(options))
      throw new UsageError('a cue has its maps, tracks and timing in itself: leave these options out');
    const cue = readCue(bytes, input, { maxBytes: maxCue });
    const taken = cue.value ? overwrites(cue.value, output) : [];
    return cueTask({ ...cue, diagnostics: [...cue.diagnostics, ...taken] }, options, io);
  }
  const { maxEvents } = options;
  const most = { maxBytes: maxMidi, ...(maxEvents === undefined ? {} : { maxEvents }) };
  return songTask(readMidi(bytes, input, most), options, io);
}

async function render(
  parts: readonly HearPart[],
  bank: LoadedBank,
  hearing: Hearing,
  output: string,
  options: HearOptions,
  io: Io,
): Promise<Outcome<Heard>> {
  let stream: FileStream | undefined;
  try {
    stream = streamTo(output);
    const sink = await sinkFor(options.format, stream.write);
    const format = options.format === 'ogg' ? '16' : options.format;
    const result = sink.ok
      ? await rendering(parts, bank, hearing, { format, sink: sink.value }, options, io)
      : sink;
    if (!result.ok) {
      stream.discard();
      return { value: undefined, diagnostics: [problemOf(result.problem, bank.file, output)] };
    }
    stream.commit();
    return { value: result.value, diagnostics: [...stream.remarks, ...leftOver()] };
  } catch (error) {
    stream?.discard();
    if (error instanceof CannotWrite)
      return { value: undefined, diagnostics: [...error.diagnostics, ...leftOver()] };
    throw error;
  }
}

async function sinkFor(format: HearOptions['format'], write: ByteSink): Promise<Result<WavSink>> {
  return format === 'ogg' ? oggSink(write) : { ok: true, value: wavSink(write) };
}

function told(
  heard: Heard,
  { input, output, bank }: { readonly input: string; readonly output: string; readonly bank: string },
  { sampleRate }: Hearing,
): string {
  const { frames, notes, peak, gain } = heard;
  const length = lengthText(frames / sampleRate);
  const level = Number.isFinite(peak) ? `peak ${peak.toFixed(1)} dBFS` : 'silent';
  const down = gain < -0.05 ? `, turned down by ${(-gain).toFixed(1)} dB` : '';
  return [
    `${escapeText(input)} → ${escapeText(output)}`,
    `  ${plural(notes, 'note')}, ${length}, ${level}${down}, played with ${escapeText(bank)}`,
    ...otherwiseHeard(heard),
    '  Turn the level of headphones down before you listen.',
    '',
  ].join('\n');
}

function outputOf(input: string, { output, map, bank }: HearOptions): string {
  if (output === undefined || output === '-') throw new UsageError('say where the sound goes: -o OUT.wav');
  const inputs = [
    input,
    ...map.map((text) => text.slice(text.lastIndexOf('=') + 1)),
    ...(bank ? [bank] : []),
  ];
  if (inputs.some((file) => isSameFile(file, output)))
    throw new UsageError('the sound would overwrite its own input: give it another name');
  return output;
}
