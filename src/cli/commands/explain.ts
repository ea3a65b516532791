import { type CompiledPart, compileParts } from '../../compile/index.js';
import type { Diagnostic } from '../../diagnostics/index.js';
import { explainPart, type ReportedPart, reportInPieces } from '../../report/index.js';
import { parseAt, placesWithin } from '../at.js';
import { inBlocks } from '../blocks.js';
import { loadSong, show } from '../context.js';
import {
  type CuePartOptions,
  compiledCue,
  refuseOptionsOfCues,
  refuseOptionsOfRecordings,
} from '../cue-input.js';
import { isCueFile } from '../cue-name.js';
import type { Io } from '../io.js';
import { loadJobs, type PartOptions } from '../jobs.js';
import { jsonOf, printJson } from '../json.js';

export interface ExplainOptions extends PartOptions, CuePartOptions {
  readonly at?: string;
}

/** `keyslip explain`: says which rule decided each note. */
export async function explainCommand(input: string, options: ExplainOptions, io: Io): Promise<number> {
  const at = options.at === undefined ? undefined : parseAt(options.at);
  const { parts, diagnostics } = await decided(input, options, io);
  if (!parts) {
    if (options.json) printJson({ input, diagnostics: jsonOf(diagnostics) }, io);
    return show(diagnostics, options, io);
  }
  // What is wrong with the place is told before anything is written.
  const asked = parts.map((part) => ({ part, within: at && placesWithin(at, part.line.clock) }));
  if (options.json) printJson({ ...reportInPieces(input, asked), diagnostics: jsonOf(diagnostics) }, io);
  else for (const block of inBlocks(explained(asked))) io.out(block);
  return show(diagnostics, options, io);
}

/** Part after part, with an empty line between them. */
function* explained(parts: readonly ReportedPart[]): Generator<string> {
  let before = '';
  for (const { part, within } of parts) {
    yield before;
    for (const line of explainPart(part, within)) yield `${line}\n`;
    before = '\n';
  }
}

/** The parts of a recording, or of a cue, with what was decided. */
async function decided(
  input: string,
  options: ExplainOptions,
  io: Io,
): Promise<{ readonly parts?: readonly CompiledPart[]; readonly diagnostics: readonly Diagnostic[] }> {
  if (isCueFile(input)) {
    refuseOptionsOfRecordings(options);
    const { compiled, diagnostics } = await compiledCue(input, options.part, options, io);
    return { ...(compiled ? { parts: compiled.parts } : {}), diagnostics };
  }
  refuseOptionsOfCues(options);
  const { value: loaded, diagnostics: found } = await loadJobs(
    await loadSong(input, options, io),
    options,
    io,
  );
  if (!loaded) return { diagnostics: found };
  const { parts, diagnostics } = compileParts(loaded.song, loaded.jobs);
  return { parts, diagnostics: [...found, ...diagnostics] };
}
