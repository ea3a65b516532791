import { compileParts } from '../../compile/index.js';
import { explainPart, report } from '../../report/index.js';
import { parseAt, placesWithin } from '../at.js';
import { jsonOf, loadSong, printJson, show } from '../context.js';
import type { Io } from '../io.js';
import { loadJobs, type PartOptions } from '../jobs.js';

export interface ExplainOptions extends PartOptions {
  readonly at?: string;
}

/** `keyslip explain`: says which rule decided each note. */
export async function explainCommand(input: string, options: ExplainOptions, io: Io): Promise<number> {
  const at = options.at === undefined ? undefined : parseAt(options.at);
  const { value: loaded, diagnostics: found } = await loadJobs(
    await loadSong(input, options, io),
    options,
    io,
  );
  if (!loaded) {
    if (options.json) printJson({ input, diagnostics: jsonOf(found) }, io);
    return show(found, options, io);
  }
  const { parts, diagnostics } = compileParts(loaded.song, loaded.jobs);
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
      },
      io,
    );
  } else {
    const texts = parts.map((part) => explainPart(part, at && placesWithin(at, part.line.clock)).join('\n'));
    io.out(`${texts.join('\n\n')}\n`);
  }
  return show([...found, ...diagnostics], options, io);
}
