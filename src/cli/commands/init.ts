import { statSync } from 'node:fs';
import { dirname, relative, resolve, sep } from 'node:path';
import { strayPath } from '../../cue/index.js';
import { escapeText } from '../../diagnostics/index.js';
import { type CommonOptions, loadSong, show } from '../context.js';
import { putOutputs } from '../files/put.js';
import { exit, type Io, UsageError } from '../io.js';
import { starterCue } from '../starter-cue.js';
import { starterMap } from '../starter-map.js';

export interface InitOptions extends CommonOptions {
  /** The recording that a cue is begun for. */
  readonly cue?: string;
}

/** `keyslip init`: writes a commented map, or cue, to begin from; never over a file that is there. */
export async function initCommand(file: string | undefined, options: InitOptions, io: Io): Promise<number> {
  const { cue: recording } = options;
  if (recording !== undefined) return initCue(recording, file ?? besideRecording(recording), options, io);
  if (file === undefined) throw new UsageError('say where the map goes: keyslip init MAP.yaml');
  return write(file, starterMap, "Put in your library's switches, then: keyslip check", options, io);
}

async function initCue(recording: string, file: string, options: CommonOptions, io: Io): Promise<number> {
  const source = recording === '-' ? 'recording.mid' : fromFolderOf(file, recording);
  const { value: song, diagnostics } = await loadSong(recording, options, io);
  const found = show(diagnostics, options, io);
  if (!song) return found;
  return write(file, starterCue(song, source), 'Name your maps, then: keyslip check', options, io);
}

function write(file: string, text: string, next: string, options: CommonOptions, io: Io): number {
  if (file === '-') {
    io.out(text);
    return exit.done;
  }
  if (statSync(file, { throwIfNoEntry: false }))
    throw new UsageError('there is a file of that name already: give another');
  const failures = putOutputs([{ path: file, content: text }], io);
  if (failures.length === 0 && !options.quiet)
    io.out(`${escapeText(file)} is written. ${next} ${escapeText(file)}\n`);
  return show(failures, options, io);
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
