import { escapeText, isError } from '../../diagnostics/index.js';
import { probe } from '../../sound/index.js';
import { type CommonOptions, loadMap, show, status } from '../context.js';
import { putOutputs } from '../files/put.js';
import { isSameFile } from '../files/same.js';
import { exit, type Io, UsageError } from '../io.js';
import { jsonOf, printJson } from '../json.js';

export interface ProbeOptions extends CommonOptions {
  readonly output?: string;
  readonly quick?: boolean;
  readonly room?: boolean;
}

/** `keyslip probe`: writes what a library has to play to be measured, and the clicks that are bounced with it. */
export async function probeCommand(file: string, options: ProbeOptions, io: Io): Promise<number> {
  const { output, quick = false, room = false } = options;
  if (output === undefined || output === '-')
    throw new UsageError('say where the probe goes: -o PROBE.mid; its clicks are written beside it');
  const clickFile = `${output.replace(/\.midi?$/iu, '')}-click.wav`;
  if ([output, clickFile].some((path) => isSameFile(path, file)))
    throw new UsageError('the probe would overwrite the map: give it another name');
  const { value: map, diagnostics } = await loadMap(file, options, io);
  if (!map || status(diagnostics, options) !== exit.done) {
    if (options.json) printJson({ map: file, diagnostics: jsonOf(diagnostics) }, io);
    return show(diagnostics, options, io);
  }
  const { plan, midi, click, text } = probe(map, { quick, room });
  const outputs = [
    { path: output, content: midi },
    { path: clickFile, content: click() },
  ];
  const failures = putOutputs(outputs, io);
  const all = [...diagnostics, ...failures];
  const { seconds, slots } = plan;
  if (options.json)
    printJson(
      { map: file, output, click: clickFile, seconds, slots: slots.length, diagnostics: jsonOf(all) },
      io,
    );
  else if (!options.quiet && !failures.some(isError))
    io.out(`${escapeText(file)} → ${escapeText(output)}, ${escapeText(clickFile)}\n${text}`);
  return show(all, options, io);
}
