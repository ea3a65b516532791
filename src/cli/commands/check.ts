import { runExamples } from '../../compile/index.js';
import { isCue } from '../../cue/index.js';
import { escapeText, type Outcome, plural } from '../../diagnostics/index.js';
import { type ArticulationMap, readMap } from '../../map/index.js';
import type { Checked } from '../check-cue.js';
import { chosenFiles } from '../chosen-files.js';
import { type CommonOptions, limits, show, status } from '../context.js';
import { printFindings } from '../format.js';
import { type FormatOptions, formatOf } from '../format-option.js';
import { exit, type Io } from '../io.js';
import { jsonOf, printJson } from '../json.js';
import { readWithBases } from '../read-with-bases.js';

export interface CheckOptions extends FormatOptions {
  /** Print each map with all that its bases lend it. */
  readonly merged?: boolean;
}

/**
 * `keyslip check`: validates maps and runs their examples; validates cues with the files that they name. Folders and
 * patterns stand for what is in them, `:maps/horns.yaml` for a file as git has it staged.
 */
export async function checkCommand(words: readonly string[], options: CheckOptions, io: Io): Promise<number> {
  const { files, diagnostics: ofWords } = await chosenFiles(words, options, io);
  if (options.merged) {
    const { printMerged } = await import('../print-merged.js');
    return printMerged(files, ofWords, options, io);
  }
  const results: Result[] = ofWords.map((one) => ({
    file: one.place.file,
    content: undefined,
    diagnostics: [one],
  }));
  for (const file of files) results.push({ file, ...(await checkFile(file, options, io)) });
  if (!(await printFindings('check', () => results, options, io))) tell(results, options, io);
  return results.some(({ diagnostics }) => status(diagnostics, options) !== exit.done)
    ? exit.errors
    : exit.done;
}

/** Tells people, or programs, of each file. */
function tell(results: readonly Result[], options: CheckOptions, io: Io): void {
  const isJson = formatOf(options) === 'json';
  if (isJson)
    printJson(
      {
        files: results.map(({ file, diagnostics }) => ({
          file,
          ok: status(diagnostics, options) === exit.done,
          diagnostics: jsonOf(diagnostics),
        })),
      },
      io,
    );
  for (const { file, content, diagnostics } of results) {
    show(diagnostics, options, io);
    if (options.quiet || isJson || !content || status(diagnostics, options) !== exit.done) continue;
    io.out(`${escapeText(file)}: in order (${content})\n`);
  }
}

interface Result extends Checked {
  readonly file: string;
}

/** A map, or a cue with everything that it names. */
async function checkFile(file: string, options: CommonOptions, io: Io): Promise<Checked> {
  const { bytes, bases, diagnostics } = await readWithBases(file, options, io);
  if (!bytes) return { content: undefined, diagnostics };
  if (isCue(bytes)) {
    // What reads and plans cues is not read for maps.
    const { checkCue } = await import('../check-cue.js');
    return checkCue(bytes, file, options, io);
  }
  return checkMap(readMap(bytes, file, { maxBytes: options.maxMap ?? limits.map, bases }));
}

function checkMap({ value: map, diagnostics }: Outcome<ArticulationMap>): Checked {
  if (!map) return { content: undefined, diagnostics };
  const { articulations, rules, examples } = map;
  const content = [
    plural(articulations.size, 'articulation'),
    plural(rules.length, 'rule'),
    plural(examples.length, 'example'),
  ].join(', ');
  return { content, diagnostics: [...diagnostics, ...runExamples(map)] };
}
