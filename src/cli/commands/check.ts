import { runExamples } from '../../compile/index.js';
import { isCue, planCue, readCue } from '../../cue/index.js';
import { type Diagnostic, escapeText, type Outcome, plural } from '../../diagnostics/index.js';
import { type ArticulationMap, mergedMap, readMap } from '../../map/index.js';
import { basesOf } from '../bases.js';
import { type CommonOptions, jsonOf, limits, printJson, show, status } from '../context.js';
import { besideCue, loadMaterial, outputRefused, overwrites } from '../cue-files.js';
import { readInput } from '../files/read.js';
import { exit, type Io } from '../io.js';

export interface CheckOptions extends CommonOptions {
  /** Print each map with all that its bases lend it. */
  readonly merged?: boolean;
}

/** `keyslip check`: validates maps and runs their examples; validates cues with the files that they name. */
export async function checkCommand(files: readonly string[], options: CheckOptions, io: Io): Promise<number> {
  if (options.merged) return printMerged(files, options, io);
  const results = [];
  for (const file of files) results.push({ file, ...(await checkFile(file, options, io)) });
  if (options.json)
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
    if (options.quiet || options.json || !content || status(diagnostics, options) !== exit.done) continue;
    io.out(`${escapeText(file)}: in order (${content})\n`);
  }
  return results.some(({ diagnostics }) => status(diagnostics, options) !== exit.done)
    ? exit.errors
    : exit.done;
}

/** A file that was checked: what is in it, in a few words, if it can be read. */
interface Checked {
  readonly content: string | undefined;
  readonly diagnostics: readonly Diagnostic[];
}

/** A map, or a cue with everything that it names. */
async function checkFile(file: string, options: CommonOptions, io: Io): Promise<Checked> {
  const maxBytes = options.maxMap ?? limits.map;
  const { value: bytes, diagnostics } = await readInput(file, maxBytes, io);
  if (!bytes) return { content: undefined, diagnostics };
  if (isCue(bytes)) return checkCue(bytes, file, options, io);
  return checkMap(readMap(bytes, file, { maxBytes, bases: await basesOf(bytes, file, maxBytes, io) }));
}

/** Prints maps with all that is lent to them as YAML, one document for each. */
async function printMerged(files: readonly string[], options: CheckOptions, io: Io): Promise<number> {
  const maxBytes = options.maxMap ?? limits.map;
  const found: Diagnostic[] = [];
  const texts: string[] = [];
  for (const file of files) {
    const { value: bytes, diagnostics } = await readInput(file, maxBytes, io);
    found.push(...diagnostics);
    if (!bytes) continue;
    const bases = await basesOf(bytes, file, maxBytes, io);
    const { diagnostics: ofMap } = readMap(bytes, file, { maxBytes, bases });
    const { value: text } = mergedMap(bytes, file, bases);
    found.push(...ofMap);
    if (text !== undefined) texts.push(text);
  }
  if (texts.length > 0) io.out(texts.join('---\n'));
  return show(found, options, io);
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

async function checkCue(bytes: Uint8Array, file: string, options: CommonOptions, io: Io): Promise<Checked> {
  const { value: cue, diagnostics: ofCue } = readCue(bytes, file, { maxBytes: options.maxMap ?? limits.map });
  if (!cue) return { content: undefined, diagnostics: ofCue };
  const { value: material, diagnostics: ofFiles } = await loadMaterial(cue, options, io);
  const planned = material && planCue(cue, material);
  const found = [
    ...ofFiles,
    ...outputRefused(cue, false),
    ...overwrites(cue, besideCue(cue, cue.output)),
    ...(planned?.diagnostics ?? []),
  ];
  const layers = cue.parts.reduce((sum, part) => sum + part.layers.length, 0);
  return {
    content: `${plural(cue.parts.length, 'part')}, ${plural(layers, 'layer')}`,
    diagnostics: [...ofCue, ...found],
  };
}
