import { isCue, readCue } from '../../cue/index.js';
import {
  type Diagnostic,
  escapeText,
  isError,
  type Outcome,
  plural,
  quoted,
} from '../../diagnostics/index.js';
import { isScore } from '../../score/index.js';
import {
  copyistSheet,
  type DrawnSheet,
  drawSheet,
  noSheet,
  type SheetTask,
  type Shown,
} from '../../sheet/index.js';
import { parseAt } from '../at.js';
import { limits, show, songOf, status } from '../context.js';
import { chosenParts, overwrites } from '../cue-files.js';
import { type CuePartOptions, refuseOptionsOfCues, refuseOptionsOfRecordings } from '../cue-input.js';
import { putOutputs } from '../files/put.js';
import { readInput } from '../files/read.js';
import { isSameFile } from '../files/same.js';
import { exit, type Io, UsageError } from '../io.js';
import type { PartOptions } from '../jobs.js';
import { jsonOf, printJson } from '../json.js';
import { isMusicXml, refuseScoreName } from '../output-kind.js';
import { progressLine } from '../progress.js';
import { refuse } from '../refuse.js';
import { type LoadedSound, refuseSound, soundOfSheet } from '../sheet-sound.js';
import { cueTask, songTask } from '../sheet-tasks.js';

export interface SheetOptions extends PartOptions, CuePartOptions {
  readonly output?: string;
  readonly at?: string;
  readonly resting?: boolean;
  /** A WAV file, or true where the sound is to be rendered. */
  readonly sound?: string | true;
  readonly bank?: string;
  readonly soundFrom?: string;
}

/** `keyslip sheet`: writes what was decided as a page to look at, or as MusicXML for a copyist. */
export async function sheetCommand(input: string, options: SheetOptions, io: Io): Promise<number> {
  const output = outputOf(input, options);
  const shown = shownOf(options, output);
  refuseSound(options, output, !isMusicXml(output));
  const { value: whole, diagnostics } = await load(input, output, options, io);
  const task = whole && {
    ...whole,
    ...(shown ? { shown } : {}),
    ...(options.resting ? { resting: true } : {}),
  };
  const ofTask = [...diagnostics, ...(task ? noSheet(task) : [])];
  if (!task || status(ofTask, options) !== exit.done) return refuse(input, ofTask, options, io);
  const { value: heard, diagnostics: ofSound } = await loadSound(task, options, io);
  const all = [...ofTask, ...ofSound];
  if (status(all, options) !== exit.done) return refuse(input, all, options, io);
  const isForCopyist = isMusicXml(output);
  const progress = progressLine(io, options);
  const tell = (done: number, of: number) => progress.tell(`system ${done} of ${of} drawn`);
  const drawn = await (isForCopyist ? copyistSheet(task) : drawSheet(task, { tell, sound: heard?.sound }));
  progress.end();
  io.note?.('drawn');
  const { content, diagnostics: ofSheet, ...counts } = drawn;
  const found = [...all, ...ofSheet];
  if (status(found, options) !== exit.done) return refuse(input, found, options, io);
  if (counts.bars === 0 && options.at !== undefined)
    throw new UsageError(`--at ${quoted(options.at)} lies behind the end of the music`);
  const failures = putOutputs([{ path: output, content }], io);
  const told = [...found, ...failures];
  const summary = { input, output, counts, ...(heard ? { heard } : {}), diagnostics: told };
  if (options.json && output !== '-') print(summary, io);
  else if (!options.quiet && !failures.some(isError)) say(summary, io);
  return show(told, options, io);
}

/** Reads a cue, a MIDI file or a score, whichever it is. */
async function load(
  input: string,
  output: string,
  options: SheetOptions,
  io: Io,
): Promise<Outcome<SheetTask>> {
  const maxMidi = options.maxMidi ?? limits.midi;
  const maxCue = options.maxMap ?? limits.map;
  const { value: bytes, diagnostics } = await readInput(input, Math.max(maxMidi, maxCue), io);
  if (!bytes) return { value: undefined, diagnostics };
  if (!isScore(bytes) && (isCue(bytes) || /\.ya?ml$/iu.test(input))) {
    refuseOptionsOfRecordings(options);
    const cue = readCue(bytes, input, { maxBytes: maxCue });
    if (cue.value) chosenParts(cue.value, options.part);
    const taken = cue.value ? overwrites(cue.value, output) : [];
    return cueTask({ ...cue, diagnostics: [...cue.diagnostics, ...taken] }, options, io);
  }
  refuseOptionsOfCues(options);
  return songTask(await songOf(bytes, input, options), options, io);
}

interface Summary {
  readonly input: string;
  readonly output: string;
  readonly counts: Omit<DrawnSheet, 'content' | 'diagnostics'>;
  readonly heard?: LoadedSound;
  readonly diagnostics: readonly Diagnostic[];
}

function print({ input, output, counts, heard, diagnostics }: Summary, io: Io): void {
  const sound = heard && { seconds: heard.sound.lengthMs / 1000, bytes: heard.sound.ogg.length };
  printJson({ input, output, ...counts, ...(sound ? { sound } : {}), diagnostics: jsonOf(diagnostics) }, io);
}

function say({ input, output, counts, heard }: Summary, io: Io): void {
  const target = output === '-' ? 'standard output' : escapeText(output);
  const said = [
    plural(counts.parts, 'part'),
    plural(counts.notes, 'note'),
    plural(counts.switches, 'switch', 'switches'),
    plural(counts.bars, 'bar'),
  ];
  (output === '-' ? io.err : io.out)(`${escapeText(input)} → ${target}\n  ${said.join(', ')}\n`);
  if (heard) io.err(heard.told.map((line) => `${line}\n`).join(''));
}

/** What the page has to be heard; nothing where none is asked for. */
async function loadSound(
  task: SheetTask,
  options: SheetOptions,
  io: Io,
): Promise<Outcome<LoadedSound | undefined>> {
  const { sound } = options;
  return sound === undefined
    ? { value: undefined, diagnostics: [] }
    : soundOfSheet(task, { ...options, sound }, io);
}

/** The parts and bars that are asked for; undefined for all. */
function shownOf({ part, at }: SheetOptions, output: string): Shown | undefined {
  if (at === undefined) return part.length === 0 ? undefined : { parts: part };
  const { from, to } = parseAt(at);
  if (from.beat !== undefined || to.beat !== undefined)
    throw new UsageError('a sheet shows bars whole: write --at 12, or --at 12..16');
  if (isMusicXml(output)) throw new UsageError('a score for a copyist has all bars: leave --at out');
  return { parts: part, bars: { from: from.bar, to: to.bar } };
}

function outputOf(input: string, { output, map }: SheetOptions): string {
  if (output === undefined)
    throw new UsageError('say where the sheet goes: -o SHEET.html, or -o SCORE.musicxml');
  if (!isMusicXml(output)) refuseScoreName(output);
  const inputs = [input, ...map.map((text) => text.slice(text.lastIndexOf('=') + 1))];
  if (inputs.some((file) => isSameFile(file, output)))
    throw new UsageError('the sheet would overwrite its own input: give it another name');
  return output;
}
