import { isCue, readCue } from '../../cue/index.js';
import { escapeText, type Outcome, plural } from '../../diagnostics/index.js';
import { isScore } from '../../score/index.js';
import { copyistSheet, drawSheet, noSheet, type SheetTask } from '../../sheet/index.js';
import { jsonOf, limits, printJson, show, songOf, status } from '../context.js';
import { overwrites } from '../cue-files.js';
import { refuseOptionsOfRecordings } from '../cue-input.js';
import { putOutputs } from '../files/put.js';
import { readInput } from '../files/read.js';
import { isSameFile } from '../files/same.js';
import { exit, type Io, UsageError } from '../io.js';
import type { PartOptions } from '../jobs.js';
import { isMusicXml, refuseScoreName } from '../output-kind.js';
import { progressLine } from '../progress.js';
import { refuse } from '../refuse.js';
import { cueTask, songTask } from '../sheet-tasks.js';

export interface SheetOptions extends PartOptions {
  readonly output?: string;
}

/** `keyslip sheet`: writes what was decided as a page to look at, or as MusicXML for a copyist. */
export async function sheetCommand(input: string, options: SheetOptions, io: Io): Promise<number> {
  const output = outputOf(input, options);
  const { value: task, diagnostics } = await load(input, output, options, io);
  const all = [...diagnostics, ...(task ? noSheet(task) : [])];
  if (!task || status(all, options) !== exit.done) return refuse(input, all, options, io);
  const isForCopyist = isMusicXml(output);
  const progress = progressLine(io, options);
  const tell = (done: number, of: number) => progress.tell(`system ${done} of ${of} drawn`);
  const drawn = await (isForCopyist ? copyistSheet(task) : drawSheet(task, tell));
  progress.end();
  io.note?.('drawn');
  const { content, diagnostics: ofSheet, ...counts } = drawn;
  const found = [...all, ...ofSheet];
  if (status(found, options) !== exit.done) return refuse(input, found, options, io);
  const failures = putOutputs([{ path: output, content }], io);
  const told = [...found, ...failures];
  if (options.json && output !== '-') printJson({ input, output, ...counts, diagnostics: jsonOf(told) }, io);
  else if (!options.quiet && failures.length === 0) {
    const target = output === '-' ? 'standard output' : escapeText(output);
    const said = [
      plural(counts.parts, 'part'),
      plural(counts.notes, 'note'),
      plural(counts.switches, 'switch', 'switches'),
      plural(counts.bars, 'bar'),
    ];
    (output === '-' ? io.err : io.out)(`${escapeText(input)} → ${target}\n  ${said.join(', ')}\n`);
  }
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
    const taken = cue.value ? overwrites(cue.value, output) : [];
    return cueTask({ ...cue, diagnostics: [...cue.diagnostics, ...taken] }, options, io);
  }
  return songTask(await songOf(bytes, input, options), options, io);
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
