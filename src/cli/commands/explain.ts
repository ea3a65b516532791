import { type CompiledPart, compileParts } from '../../compile/index.js';
import type { Diagnostic } from '../../diagnostics/index.js';
import { explainPart, report } from '../../report/index.js';
import { parseAt, placesWithin } from '../at.js';
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
  if (options.json) {
    const whole = report(input, parts);
    const within = parts.map(({ line }) => (at ? placesWithin(at, line.clock) : () => true));
    printJson(
      {
        ...whole,
        parts: whole.parts.map((part, index) => ({
          ...part,
          notes: part.notes.filter(({ bar, beat }) =>
            within[index]?.(bar === null || beat === null ? null : { bar, beat }),
          ),
        })),
        diagnostics: jsonOf(diagnostics),
      },
      io,
    );
  } else {
    const texts = parts.map((part) => explainPart(part, at && placesWithin(at, part.line.clock)).join('\n'));
    io.out(`${texts.join('\n\n')}\n`);
  }
  return show(diagnostics, options, io);
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
