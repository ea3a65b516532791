import { statSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { type Diagnostic, escapeText, quoted } from '../diagnostics/index.js';
import { writeFailure } from './files/problems.js';
import { isSameFile } from './files/same.js';
import { UsageError } from './io.js';
import { refuseScoreName } from './output-kind.js';

/** A recording, where its result goes, and where what was decided goes. */
export interface Place {
  readonly input: string;
  readonly output: string;
  readonly report: string | undefined;
}

interface PlaceOptions {
  readonly output?: string;
  readonly inPlace?: boolean;
  readonly report?: string;
  readonly map: readonly string[];
}

/**
 * Where the results of recordings go: into the file that is named, or into the folder, under the recordings' own names.
 * An input is never overwritten unless that was asked for. A folder that is not there is told: cannot-write.
 *
 * @throws UsageError where results would take each other's place, or that of a file that is read
 */
export function placesOf(
  named: readonly string[],
  options: PlaceOptions,
): { readonly places: readonly Place[]; readonly diagnostics: readonly Diagnostic[] } {
  const inputs = [...new Map(named.map((input) => [input === '-' ? input : resolve(input), input])).values()];
  if (inputs.length > 1) refuseStreams(inputs, options);
  const { output, inPlace = false, report } = options;
  if (output === undefined && !inPlace)
    throw new UsageError(
      inputs.length > 1 ? 'say where the results go: -o FOLDER/' : 'say where the result goes: -o OUT.mid',
    );
  const places = inputs.map((input): Place => {
    if (input === '-' && [output, report].some((path) => path !== undefined && isFolder(path)))
      throw new UsageError('what comes from standard input has no name to take in a folder: name a file');
    const target = output === undefined ? input : placeIn(output, midiName(input), inputs, '-o');
    if (!inPlace) refuseScoreName(target);
    const reportTo =
      report === undefined ? undefined : placeIn(report, reportName(input), inputs, '--report');
    return { input, output: target, report: reportTo };
  });
  refuseCollisions(places);
  refuseOverwriting(places, options);
  const folders = [output, report].flatMap((path) => (path !== undefined && isFolder(path) ? [path] : []));
  return { places, diagnostics: [...new Set(folders)].flatMap(missing) };
}

function refuseStreams(inputs: readonly string[], { output, report }: PlaceOptions): void {
  if (inputs.includes('-'))
    throw new UsageError('standard input is one recording: give it alone, or give the others as files too');
  if (output === '-' || report === '-')
    throw new UsageError(
      'standard output takes one result, and several recordings are given',
      'say -o FOLDER/',
    );
}

/** The path itself; within it, where it is a folder. */
function placeIn(path: string, name: string, inputs: readonly string[], option: string): string {
  if (isFolder(path)) return join(path, name);
  if (inputs.length > 1)
    throw new UsageError(
      `${option} ${quoted(path)} is one file, and ${inputs.length} recordings are given`,
      `name a folder that is there: ${option} FOLDER/`,
    );
  return path;
}

/** Whether a folder is meant: one is there, or the name ends as those of folders do. */
function isFolder(path: string): boolean {
  return /[/\\]$/u.test(path) || stateOf(path) === 'folder';
}

function stateOf(path: string): 'folder' | 'other' | 'none' {
  try {
    const found = statSync(path, { throwIfNoEntry: false });
    return found === undefined ? 'none' : found.isDirectory() ? 'folder' : 'other';
  } catch {
    // Writing will tell why.
    return 'other';
  }
}

function missing(folder: string): readonly Diagnostic[] {
  const bare = folder.replace(/[/\\]+$/u, '') || folder;
  switch (stateOf(bare)) {
    case 'folder':
      return [];
    case 'none':
      return writeFailure(folder, 'there is no such folder', 'make the folder first').diagnostics;
    case 'other':
      return writeFailure(folder, 'it is a file, not a folder').diagnostics;
  }
}

/** The name of a result: the recording's own; of a score, with the ending of MIDI. */
function midiName(input: string): string {
  return basename(input).replace(/\.(musicxml|mxl|mei|xml)$/iu, '.mid');
}

function reportName(input: string): string {
  return `${midiName(input).replace(/\.midi?$/iu, '')}.json`;
}

/** Names that differ in case alone are one file on many disks. */
function refuseCollisions(places: readonly Place[]): void {
  const taken = new Map<string, string>();
  for (const { input, output, report } of places)
    for (const path of [output, report ?? []].flat()) {
      const key = path.normalize('NFC').toLowerCase();
      const other = taken.get(key);
      if (other !== undefined && other !== input)
        throw new UsageError(
          `${quoted(other)} and ${quoted(input)} would both be written to ${escapeText(path)}`,
          'rename one of them, or compile them one by one',
        );
      taken.set(key, input);
    }
}

function refuseOverwriting(places: readonly Place[], { map, inPlace = false }: PlaceOptions): void {
  const maps = map.map((text) => text.slice(text.lastIndexOf('=') + 1));
  const inputs = places.map(({ input }) => input);
  const sameAs = (files: readonly string[], path: string) => files.find((file) => isSameFile(file, path));
  for (const { input, output, report } of places) {
    const read = sameAs(inputs, output);
    if (read !== undefined && !(inPlace && read === input))
      throw new UsageError(
        places.length === 1
          ? 'the output is the input file: give it another name, or say --in-place if that is meant'
          : `the result of ${quoted(input)} would overwrite ${quoted(read)}: give another folder, or say --in-place if that is meant`,
      );
    if (sameAs(maps, output) !== undefined)
      throw new UsageError('the output is the map: give it another name');
    refuseReport(report, output, (path) => sameAs([...inputs, ...maps], path) !== undefined);
  }
}

/**
 * Refuses a report that would go where the result goes, or over a file that is read.
 *
 * @param isRead whether a path leads to such a file
 */
export function refuseReport(
  report: string | undefined,
  target: string,
  isRead: (path: string) => boolean,
): void {
  if (report === '-' && target === '-')
    throw new UsageError('result and report cannot both go to standard output: give one of them a name');
  if (report !== undefined && (isSameFile(target, report) || isRead(report)))
    throw new UsageError('the report would overwrite another file of this command: give it another name');
}
