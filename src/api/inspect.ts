import { partsOf } from '../compile/index.js';
import type { Diagnostic } from '../diagnostics/index.js';
import { inspect as inspectMusic, musicOf } from '../music/index.js';
import { type MusicOptions, mapOf, readMusic, songOf } from './music.js';

export interface InspectOptions extends Partial<Pick<MusicOptions, 'maps' | 'name'>> {
  /** How often harmony is told; where it is found to change, if absent. */
  readonly per?: 'beat' | 'bar';
}

/** What was found in a recording. */
export interface InspectResult {
  /** By the name of each inspection, plain data as `inspect --json` prints it. */
  readonly found: Readonly<Record<string, unknown>>;
  /** The same for people, an inspection each; what has nothing to tell is left out. */
  readonly texts: readonly string[];
  readonly diagnostics: readonly Diagnostic[];
}

/** Says what sounds mechanical in a recording, what sounds together, and where it lies. Maps tell ranges and switch keys. */
export function inspect(midi: Uint8Array, { maps, name, per }: InspectOptions = {}): InspectResult {
  const { value: song, diagnostics: ofSong } = songOf(midi, name);
  if (!song) return { found: {}, texts: [], diagnostics: ofSong };
  const read = maps && readMusic(midi, { maps, ...(name === undefined ? {} : { name }) });
  const music = musicOf(song, song.tracks.flatMap(partsOf), per ?? 'found', ({ track, channel }) =>
    read?.value ? mapOf(read.value, track, channel) : undefined,
  );
  const told = inspectMusic(music);
  return {
    found: Object.fromEntries(told.map((one) => [one.name, one.json()])),
    texts: told.map((one) => one.text()).filter((text) => text !== ''),
    diagnostics: read?.diagnostics ?? ofSong,
  };
}
