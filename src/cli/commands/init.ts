import { readdirSync, readFileSync, statSync } from 'node:fs';
import { basename, dirname, join, relative, resolve, sep } from 'node:path';
import { cueSchemaText, strayPath } from '../../cue/index.js';
import { type Diagnostic, escapeText, isError } from '../../diagnostics/index.js';
import { mapSchemaText } from '../../map/index.js';
import { type CommonOptions, loadSong, show } from '../context.js';
import { CannotWrite, codeOf, guarded } from '../files/problems.js';
import { type Output, putOutputs } from '../files/put.js';
import { exit, type Io, UsageError } from '../io.js';
import { starterCue } from '../starter-cue.js';
import { starterMap } from '../starter-map.js';

export interface InitOptions extends CommonOptions {
  /** The recording that a cue is begun for. */
  readonly cue?: string;
}

/** The schema that stands beside a new file, so that an editor knows its keys wherever it is, and without a network. */
interface Schema {
  readonly name: string;
  readonly text: string;
}

const ofMaps: Schema = { name: 'map.schema.json', text: mapSchemaText };
const ofCues: Schema = { name: 'cue.schema.json', text: cueSchemaText };

interface Starter {
  readonly text: string;
  readonly schema: Schema;
  /** What to do with the file. */
  readonly next: string;
}

/**
 * `keyslip init`: writes a commented map, or cue, to begin from, and its schema beside it; never over a file that is
 * there, except over a schema of another version.
 */
export async function initCommand(file: string | undefined, options: InitOptions, io: Io): Promise<number> {
  const { cue: recording } = options;
  if (recording !== undefined) return initCue(recording, file ?? besideRecording(recording), options, io);
  if (file === undefined) throw new UsageError('say where the map goes: keyslip init MAP.yaml');
  const next = "Put in your library's switches, then: keyslip check";
  return write(file, { text: starterMap, schema: ofMaps, next }, options, io);
}

async function initCue(recording: string, file: string, options: CommonOptions, io: Io): Promise<number> {
  const source = recording === '-' ? 'recording.mid' : fromFolderOf(file, recording);
  const { value: song, diagnostics } = await loadSong(recording, options, io);
  const found = show(diagnostics, options, io);
  if (!song) return found;
  const next = 'Name your maps, then: keyslip check';
  return write(file, { text: starterCue(song, source, mapsNear(file)), schema: ofCues, next }, options, io);
}

function write(file: string, { text, schema, next }: Starter, options: CommonOptions, io: Io): number {
  if (file === '-') {
    io.out(text);
    return exit.done;
  }
  const failures = put(() => {
    if (isThere(file)) throw new UsageError('there is a file of that name already: give another');
    return [{ path: file, content: text }, ...beside(file, schema)];
  }, io);
  if (!failures.some(isError) && !options.quiet) {
    const shown = escapeText(file);
    io.out(`${shown} is written, with ${schema.name} for your editor. ${next} ${shown}\n`);
  }
  return show(failures, options, io);
}

/** Puts files in place, unless it cannot be told what is there already. */
function put(outputs: () => readonly Output[], io: Io): readonly Diagnostic[] {
  try {
    return putOutputs(outputs(), io);
  } catch (error) {
    if (error instanceof CannotWrite) return error.diagnostics;
    throw error;
  }
}

/** @throws CannotWrite where the system does not say */
function isThere(path: string): boolean {
  return guarded(path, () => statSync(path, { throwIfNoEntry: false }) !== undefined);
}

/** The schema beside a file, unless it is there already; only a schema of ours is written over. */
function beside(file: string, { name, text }: Schema): readonly Output[] {
  const path = join(dirname(file), name);
  if (basename(file) === name) throw new UsageError(`${name} is the schema's name: give another`);
  const there = textOf(path);
  if (there === text) return [];
  const id = /^ {2}"\$id": .*$/mu.exec(text)?.[0];
  if (there !== undefined && (id === undefined || !there.includes(id)))
    throw new UsageError(
      `${escapeText(path)}, where the schema goes, is another file: move it, or write to another folder`,
    );
  return [{ path, content: text }];
}

/**
 * The text of a file; undefined where there is none, empty where it is a folder.
 *
 * @throws CannotWrite where it cannot be read
 */
function textOf(path: string): string | undefined {
  return guarded(path, () => {
    try {
      return readFileSync(path, 'utf8');
    } catch (error) {
      if (codeOf(error) === 'ENOENT') return undefined;
      if (codeOf(error) === 'EISDIR') return '';
      throw error;
    }
  });
}

/** The maps in the folder of a cue file, and in a folder maps there, as the cue would write their paths. */
function mapsNear(file: string): readonly string[] {
  const folder = file === '-' ? '.' : dirname(file);
  return ['', 'maps/'].flatMap((below) => {
    const names = namesIn(join(folder, below)).filter((name) => /^[^.].*\.ya?ml$/iu.test(name));
    return names.filter((name) => isMap(join(folder, below, name))).map((name) => `${below}${name}`);
  });
}

/** Larger files than a map can be are not looked into. Unit: bytes. */
const largestMap = 1024 * 1024;

/** Whether a file is a map, as far as can be seen: a guess needs no more, and what cannot be read is none. */
function isMap(path: string): boolean {
  try {
    const found = statSync(path);
    if (!found.isFile() || found.size > largestMap) return false;
    return /^format: *keyslip-map\/1\b/mu.test(readFileSync(path, 'utf8'));
  } catch {
    return false;
  }
}

/** The names in a folder, in order; none where it cannot be read. */
function namesIn(folder: string): readonly string[] {
  try {
    return readdirSync(folder).sort();
  } catch {
    return [];
  }
}

function besideRecording(recording: string): string {
  return recording === '-' ? '-' : `${recording.replace(/\.(midi?|musicxml|mxl|mei)$/iu, '')}.cue.yaml`;
}

/** The recording's path from the folder that a cue file is in. */
function fromFolderOf(file: string, recording: string): string {
  const folder = file === '-' ? '.' : dirname(file);
  const path = relative(resolve(folder), resolve(recording)).split(sep).join('/');
  if (strayPath(path) !== undefined)
    throw new UsageError('the recording must be in the folder of the cue, or below it');
  return path;
}
