import { type Diagnostic, formatDiagnostics, type Outcome } from '../diagnostics/index.js';
import { type ArticulationMap, readMap } from '../map/index.js';
import { isMidi, readMidi, type Song } from '../midi/index.js';
import { basesOf } from './bases.js';
import { readInput } from './files/read.js';
import { exit, type Io } from './io.js';

/** The options that every command has. */
export interface CommonOptions {
  readonly quiet?: boolean;
  readonly json?: boolean;
  readonly strict?: boolean;
  /** Limits in bytes, from the options in MB and KB. */
  readonly maxMidi?: number;
  readonly maxMap?: number;
  /** The most events in a MIDI file. */
  readonly maxEvents?: number;
}

/** The largest files read unless an option says otherwise. Unit: bytes. */
export const limits = { midi: 64 * 1024 * 1024, map: 256 * 1024 } as const;

/** Shows diagnostics on standard error: errors always, warnings unless quiet. Returns the exit status they come to. */
export function show(diagnostics: readonly Diagnostic[], options: CommonOptions, io: Io): number {
  const shown = options.quiet ? diagnostics.filter(({ severity }) => severity === 'error') : diagnostics;
  if (shown.length > 0) io.err(`${formatDiagnostics(shown, { color: io.color }).join('\n')}\n`);
  return status(diagnostics, options);
}

/** Errors make the status 1; warnings do so only if strict. */
export function status(diagnostics: readonly Diagnostic[], { strict }: CommonOptions): number {
  const counts = diagnostics.some(({ severity }) => severity === 'error' || strict === true);
  return counts ? exit.errors : exit.done;
}

/** Reads and checks a map file. */
export async function loadMap(
  path: string,
  options: CommonOptions,
  io: Io,
): Promise<Outcome<ArticulationMap>> {
  const maxBytes = options.maxMap ?? limits.map;
  const { value: bytes, diagnostics } = await readInput(path, maxBytes, io);
  if (!bytes) return { value: undefined, diagnostics };
  const map = readMap(bytes, path, { maxBytes, bases: await basesOf(bytes, path, maxBytes, io) });
  io.note?.(`understood the map ${path}`);
  return map;
}

/** Reads a recording, or a score as it is played; which it is, the content tells. */
export async function loadSong(path: string, options: CommonOptions, io: Io): Promise<Outcome<Song>> {
  const maxBytes = options.maxMidi ?? limits.midi;
  const { value: bytes, diagnostics } = await readInput(path, maxBytes, io);
  if (!bytes) return { value: undefined, diagnostics };
  const song = await songOf(bytes, path, options);
  io.note?.(`understood the music ${path}`);
  return song;
}

/** The same, of bytes that were read. What reads scores is loaded for scores only. */
export async function songOf(
  bytes: Uint8Array,
  path: string,
  { maxMidi: maxBytes = limits.midi, maxEvents }: CommonOptions,
): Promise<Outcome<Song>> {
  const most = { maxBytes, ...(maxEvents === undefined ? {} : { maxEvents }) };
  if (isMidi(bytes)) return readMidi(bytes, path, most);
  const { readSong } = await import('../score/index.js');
  return readSong(bytes, path, most);
}
