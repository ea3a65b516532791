import {
  type ComparedPart,
  compareArticulations,
  compareExamples,
  compareMaps,
} from '../../compare/index.js';
import { type Diagnostic, diagnostic, type Outcome } from '../../diagnostics/index.js';
import type { ArticulationMap } from '../../map/index.js';
import type { Part, Song } from '../../midi/index.js';
import { changeDiagnostics, comparisonJson, comparisonText, counts } from '../../report/index.js';
import { type CommonOptions, loadSong, show, status } from '../context.js';
import { printFindings } from '../format.js';
import { type FormatOptions, formatOf } from '../format-option.js';
import { loadMapVersion } from '../git/version.js';
import { exit, type Io, UsageError } from '../io.js';
import { jsonOf, printJson } from '../json.js';
import { partsChosen, partsOfOnlyTrack } from '../tracks.js';

export interface CompareOptions extends FormatOptions {
  readonly track: readonly string[];
  /** 1–16. */
  readonly channel?: number;
}

/** The maps' files, or versions of them, and the recordings. */
export interface CompareFiles {
  readonly a: string;
  readonly b: string;
  readonly inputs: readonly string[];
}

/**
 * `keyslip compare`: says which notes get another articulation from one map than from the other, and why. The status is
 * 1 where any does.
 */
export async function compareCommand(files: CompareFiles, options: CompareOptions, io: Io): Promise<number> {
  refuseNonsense(files, options);
  const { a: fileA, b: fileB, inputs } = files;
  const { value: maps, diagnostics: ofMaps } = await loadMaps(files, options, io);
  const compared = await compareRecordings(inputs, maps, options, io);
  const examples = maps && inputs.length === 0 ? compareExamples(maps.a, maps.b) : [];
  const nothing = maps && inputs.length === 0 && examples.length === 0 ? [noExamples(fileB)] : [];
  const diagnostics = [...ofMaps, ...compared.diagnostics, ...nothing];
  const format = formatOf(options);
  if (!maps) {
    if (await printFindings('compare', () => [{ file: fileB, diagnostics }], options, io))
      return status(diagnostics, options);
    if (format === 'json') printJson({ a: fileA, b: fileB, diagnostics: jsonOf(diagnostics) }, io);
    return show(diagnostics, options, io);
  }
  const articulations = compareArticulations(maps.a, maps.b);
  const comparison = { ...maps, parts: compared.parts, examples, articulations };
  const changed = counts(comparison).changes > 0 ? exit.errors : exit.done;
  const findings = () => [{ file: fileB, diagnostics: [...diagnostics, ...changeDiagnostics(comparison)] }];
  if (await printFindings('compare', findings, options, io)) return status(diagnostics, options) || changed;
  const text = format === 'json' ? '' : comparisonText(comparison, options.quiet === true);
  if (format === 'json') printJson({ ...comparisonJson(comparison), diagnostics: jsonOf(diagnostics) }, io);
  else if (text !== '') io.out(`${text}\n`);
  return show(diagnostics, options, io) || changed;
}

function refuseNonsense({ a, b, inputs }: CompareFiles, { track, channel }: CompareOptions): void {
  if ([a, b, ...inputs].filter((file) => file === '-').length > 1)
    throw new UsageError('only one of the files can come from standard input');
  if (inputs.length === 0 && (track.length > 0 || channel !== undefined))
    throw new UsageError(
      'the examples of the maps have no tracks: name a recording, or leave --track and --channel out',
    );
}

interface Maps {
  readonly a: ArticulationMap;
  readonly b: ArticulationMap;
}

/** Reads both maps; every error of both is reported, those of a map that is compared with itself once. */
async function loadMaps({ a, b }: CompareFiles, options: CommonOptions, io: Io): Promise<Outcome<Maps>> {
  const ofA = await loadMapVersion(a, options, io);
  const ofB = a === b ? ofA : await loadMapVersion(b, options, io);
  const diagnostics = a === b ? ofA.diagnostics : [...ofA.diagnostics, ...ofB.diagnostics];
  return { value: ofA.value && ofB.value && { a: ofA.value, b: ofB.value }, diagnostics };
}

/** Reads the recordings and compares their parts; without maps they are read all the same, for what is wrong with them. */
async function compareRecordings(
  inputs: readonly string[],
  maps: Maps | undefined,
  options: CompareOptions,
  io: Io,
): Promise<{ readonly parts: readonly ComparedPart[]; readonly diagnostics: readonly Diagnostic[] }> {
  const results = [];
  for (const input of inputs) {
    const { value: song, diagnostics } = await loadSong(input, options, io);
    const chosen = song ? chosenParts(song, options, inputs.length > 1) : [];
    const silent = song && chosen.length === 0 ? [noNotes(input)] : [];
    const compared = song && maps && compareMaps(song, chosen, maps.a, maps.b);
    results.push({
      parts: compared?.parts ?? [],
      diagnostics: [...diagnostics, ...silent, ...(compared?.diagnostics ?? [])],
    });
  }
  return {
    parts: results.flatMap(({ parts }) => parts),
    diagnostics: results.flatMap(({ diagnostics }) => diagnostics),
  };
}

/** The parts that the options name, each once; those of the only track with notes where they name none. */
function chosenParts(song: Song, options: CompareOptions, isOneOfSeveral: boolean): readonly Part[] {
  try {
    const parts = partsChosen(song, options, partsOfOnlyTrack);
    return [...new Map(parts.map((part) => [`${part.track} ${part.channel}`, part])).values()];
  } catch (error) {
    if (!(error instanceof UsageError) || !isOneOfSeveral) throw error;
    throw new UsageError(`${song.file}: ${error.message}`);
  }
}

function nothingToCompare(file: string, why: string, hint: string): Diagnostic {
  const place = { kind: 'file', file } as const;
  return diagnostic('no-notes', place, `there are no notes to compare${why}`, hint);
}

function noNotes(file: string): Diagnostic {
  return nothingToCompare(
    file,
    ' in the tracks that were chosen',
    'see that the recording is in this file, and on the track that --track names',
  );
}

function noExamples(file: string): Diagnostic {
  return nothingToCompare(
    file,
    ': neither map has examples',
    'write examples into the maps, or name a recording behind them',
  );
}
