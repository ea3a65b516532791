import { type Job, ornamented, takeStored } from '../compile/index.js';
import { type Diagnostic, type Outcome, withErrors } from '../diagnostics/index.js';
import { isDynamicMark } from '../dynamics/index.js';
import { type ArticulationMap, type Bases, readMap } from '../map/index.js';
import type { Song } from '../midi/index.js';
import { readSong } from '../score/index.js';
import { defaultSeed, type TimingOptions } from '../timing/index.js';
import { type BaseTexts, type GivenMap, partsFor } from './parts.js';

/** What is done with the timing of notes; what is left out stays as it was played. */
export type TimingChoice = Partial<TimingOptions>;

/** Which notes are played by which libraries, and with what timing. */
export interface MusicOptions {
  /** One map, or several for several tracks. */
  readonly maps: GivenMap | readonly GivenMap[];
  /** The recording's name in diagnostics; `in.mid` where it is absent. */
  readonly name?: string;
  readonly timing?: TimingChoice;
}

/** Music that was read, and what is to be done with each of its parts. */
export interface ReadMusic {
  readonly song: Song;
  readonly jobs: readonly Job[];
}

/** Bytes as bytes, text as UTF-8. */
export function bytesOf(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}

/** Reads a map, with the texts that lend to it. */
export function givenMap(map: string, name = 'map.yaml', texts: BaseTexts = {}): Outcome<ArticulationMap> {
  const bases: Bases = {
    folder: name.slice(0, name.lastIndexOf('/') + 1),
    texts: new Map(Object.entries(texts).map(([path, text]) => [path, bytesOf(text)])),
  };
  return readMap(bytesOf(map), name, { bases });
}

/** Reads a recording, or a score as it is played. */
export function songOf(midi: Uint8Array, name = 'in.mid'): Outcome<Song> {
  return readSong(midi, name);
}

/** Reads a recording and the maps for its parts. Everything that is wrong with any of them is told. */
export function readMusic(midi: Uint8Array, { maps, name, timing }: MusicOptions): Outcome<ReadMusic> {
  const { value: whole, diagnostics: ofSong } = songOf(midi, name);
  const { song, diagnostics: ofStored = [] } = whole ? takeStored(whole) : {};
  const found: Diagnostic[] = [...ofSong, ...ofStored];
  const jobs: readonly Job[] = [maps].flat().flatMap((given) => {
    const { value: map, diagnostics } = givenMap(given.map, given.name, given.bases);
    found.push(...diagnostics);
    if (!song || !map) return [];
    const { value: parts, diagnostics: ofParts } = partsFor(song, given);
    found.push(...ofParts);
    return (parts ?? []).map((part) => ({ part, map, readsMark: isDynamicMark, ...timed(timing) }));
  });
  const plays = jobs.map(({ part: { track }, map }) => ({ track, map }));
  return withErrors(song && { song: ornamented(song, plays), jobs }, found);
}

function timed(timing: TimingChoice | undefined): Pick<Job, 'timing'> {
  return timing ? { timing: { compensate: false, joins: false, seed: defaultSeed, ...timing } } : {};
}

/** The map that plays a part, if one was given. */
export function mapOf({ jobs }: ReadMusic, track: number, channel: number): ArticulationMap | undefined {
  return jobs.find(({ part }) => part.track === track && part.channel === channel)?.map;
}
