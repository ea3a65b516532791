import { runExamples } from '../../compile/index.js';
import { type Cue, isCue, planCue, readCue } from '../../cue/index.js';
import { type Diagnostic, escapeText, type Outcome, plural } from '../../diagnostics/index.js';
import { type ArticulationMap, type Bases, mergedMap, readMap } from '../../map/index.js';
import { basesOf } from '../bases.js';
import { chosenFiles } from '../chosen-files.js';
import { type CommonOptions, jsonOf, limits, printJson, show, status } from '../context.js';
import { besideCue, loadMaterial, outputRefused, overwrites } from '../cue-files.js';
import { readInput } from '../files/read.js';
import { type FormatOptions, formatOf, printFindings } from '../format.js';
import { basesOfVersion, isVersion, readVersion } from '../git/version.js';
import { exit, type Io } from '../io.js';
import { checkCueVersion } from '../staged-cue.js';

export interface CheckOptions extends FormatOptions {
  /** Print each map with all that its bases lend it. */
  readonly merged?: boolean;
}

/**
 * `keyslip check`: validates maps and runs their examples; validates cues with the files that they name. Folders and
 * patterns stand for what is in them, `:maps/horns.yaml` for a file as git has it staged.
 */
export async function checkCommand(words: readonly string[], options: CheckOptions, io: Io): Promise<number> {
  const { files, diagnostics: ofWords } = await chosenFiles(words);
  if (options.merged) return printMerged(files, ofWords, options, io);
  const results: Result[] = ofWords.map((one) => ({
    file: one.place.file,
    content: undefined,
    diagnostics: [one],
  }));
  for (const file of files) results.push({ file, ...(await checkFile(file, options, io)) });
  if (!printFindings('check', results, options, io)) tell(results, options, io);
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

/** A file that was checked: what is in it, in a few words, if it can be read. */
interface Checked {
  readonly content: string | undefined;
  readonly diagnostics: readonly Diagnostic[];
}

interface Result extends Checked {
  readonly file: string;
}

/** A map, or a cue with everything that it names. */
async function checkFile(file: string, options: CommonOptions, io: Io): Promise<Checked> {
  const { bytes, bases, diagnostics } = await readWithBases(file, options, io);
  if (!bytes) return { content: undefined, diagnostics };
  if (isCue(bytes)) return checkCue(bytes, file, options, io);
  return checkMap(readMap(bytes, file, { maxBytes: options.maxMap ?? limits.map, bases }));
}

/** A file, or a version of one that git keeps, with what lends to it in the same version. */
async function readWithBases(
  file: string,
  options: CommonOptions,
  io: Io,
): Promise<{
  readonly bytes: Uint8Array | undefined;
  readonly bases: Bases;
  readonly diagnostics: readonly Diagnostic[];
}> {
  const maxBytes = options.maxMap ?? limits.map;
  const isKept = isVersion(file);
  const { value: bytes, diagnostics } = isKept
    ? await readVersion(file, maxBytes)
    : await readInput(file, maxBytes, io);
  if (!bytes) return { bytes, bases: { folder: '', texts: new Map() }, diagnostics };
  const bases = isKept
    ? await basesOfVersion(bytes, file, maxBytes)
    : await basesOf(bytes, file, maxBytes, io);
  return { bytes, bases, diagnostics };
}

/** Prints maps with all that is lent to them as YAML, one document for each. */
async function printMerged(
  files: readonly string[],
  ofWords: readonly Diagnostic[],
  options: CheckOptions,
  io: Io,
): Promise<number> {
  const maxBytes = options.maxMap ?? limits.map;
  const found: Diagnostic[] = [...ofWords];
  const texts: string[] = [];
  for (const file of files) {
    const { bytes, bases, diagnostics } = await readWithBases(file, options, io);
    found.push(...diagnostics);
    if (!bytes) continue;
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
  if (isVersion(file))
    return {
      content: cueContent(cue),
      diagnostics: [...ofCue, ...(await checkCueVersion(cue, file, options, io))],
    };
  const { value: material, diagnostics: ofFiles } = await loadMaterial(cue, options, io);
  const planned = material && planCue(cue, material);
  const found = [
    ...ofFiles,
    ...outputRefused(cue, false),
    ...overwrites(cue, besideCue(cue, cue.output)),
    ...(planned?.diagnostics ?? []),
  ];
  return { content: cueContent(cue), diagnostics: [...ofCue, ...found] };
}

function cueContent({ parts }: Cue): string {
  const layers = parts.reduce((sum, part) => sum + part.layers.length, 0);
  return `${plural(parts.length, 'part')}, ${plural(layers, 'layer')}`;
}
