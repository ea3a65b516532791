import { existsSync } from 'node:fs';
import { type Job, ornamented, type Stored, takeStored, withPreroll } from '../compile/index.js';
import { type Diagnostic, diagnostic, type Outcome, quoted } from '../diagnostics/index.js';
import { isDynamicMark } from '../dynamics/index.js';
import type { ArticulationMap } from '../map/index.js';
import type { Part, Song } from '../midi/index.js';
import { type CommonOptions, loadMap } from './context.js';
import { type Io, UsageError } from './io.js';
import { type TimingFlags, timingFor } from './timing.js';
import { findTrack, partsChosen, partsOfNamed, partsOfOnlyTrack } from './tracks.js';

/** The options that say which parts are compiled with which maps. */
export interface PartOptions extends CommonOptions, TimingFlags {
  /** `MAP.yaml`, or `TRACK=MAP.yaml`. */
  readonly map: readonly string[];
  readonly track: readonly string[];
  /** 1–16. */
  readonly channel?: number;
  /** When to send switches again, in place of what the maps say. */
  readonly restate: readonly Restate[];
}

/** As a map's `restate`. */
export type Restate = ArticulationMap['switching']['restate'];

/** A song and what is to be done with it. */
export interface LoadedJobs {
  readonly song: Song;
  /** The song as it stands in the file; another than `song` where a preroll moved it. */
  readonly original: Song;
  readonly jobs: readonly Job[];
  /** What the file said that it was compiled with; it is taken out of the song. */
  readonly stored?: Stored;
}

interface Assignment {
  readonly file: string;
  readonly parts: readonly Part[];
}

/**
 * Reads the maps for a MIDI file, and finds the parts. Every error of every file is reported.
 *
 * @param maps maps that were read already, by their files; those that are read now are put there
 */
export async function loadJobs(
  read: Outcome<Song>,
  options: PartOptions,
  io: Io,
  maps = new Map<string, Outcome<ArticulationMap>>(),
): Promise<Outcome<LoadedJobs>> {
  if (options.map.length === 0)
    throw new UsageError('say which library plays it: --map MAP.yaml, or TRACK=MAP.yaml for each track');
  const taken = read.value && takeStored(read.value);
  const { song: music, diagnostics: ofStored = [] } = taken ?? {};
  const assignments = music ? assign(music, options) : [];
  const files = music
    ? assignments.map(({ file }) => file)
    : options.map.map((text) => text.slice(text.indexOf('=') + 1));
  for (const file of files) if (!maps.has(file)) maps.set(file, await loadMap(file, options, io));
  const plays = assignments.flatMap(({ file, parts }) => {
    const map = maps.get(file)?.value;
    return map ? parts.map(({ track }) => ({ track, map })) : [];
  });
  const original = music && ornamented(music, plays);
  const song = original && prerolled(original, options);
  const jobs = assignments.flatMap(({ file, parts }) => {
    const map = maps.get(file)?.value;
    const timing = map && timingFor(options, map);
    const restated = map && withRestate(map, options.restate);
    if (!restated) return [];
    return parts.map((part) => ({
      part,
      map: restated,
      readsMark: isDynamicMark,
      ...(timing ? { timing } : {}),
    }));
  });
  const diagnostics = [
    ...read.diagnostics,
    ...ofStored,
    ...[...maps.values()].flatMap((outcome) => outcome.diagnostics),
    ...(song ? aboutParts(song, assignments) : []),
  ];
  const failed = !song || [...maps.values()].some(({ value }) => !value);
  return {
    value:
      failed || !original
        ? undefined
        : { song, original, jobs, ...(taken?.stored ? { stored: taken.stored } : {}) },
    diagnostics,
  };
}

/** The map with another `restate`, where the command line gives one. */
function withRestate(map: ArticulationMap, restate: readonly Restate[]): ArticulationMap {
  if (restate.length === 0) return map;
  return { ...map, switching: { ...map.switching, restate: Object.assign({}, ...restate) as Restate } };
}

function prerolled(song: Song, { preroll }: TimingFlags): Song {
  if (!preroll) return song;
  const moved = withPreroll(song, preroll);
  if (!moved) throw new UsageError('--preroll needs bars, and this file counts SMPTE frames instead');
  return moved;
}

function assign(song: Song, options: PartOptions): readonly Assignment[] {
  const { map, track, channel } = options;
  const keyed = map.flatMap((text) => {
    const pair = keyedMap(song, text);
    return pair ? [pair] : [];
  });
  const plain = map.filter((text) => keyedMap(song, text) === undefined);
  const [file, second] = plain;
  if (second !== undefined)
    throw new UsageError(
      `${plain.length} maps are given without a track: write --map TRACK=MAP.yaml for each`,
    );
  const assignments = keyed.map(({ name, file: of }) => ({
    file: of,
    parts: partsOfNamed(song, name, channel),
  }));
  if (file === undefined) {
    if (track.length > 0) throw new UsageError('--track needs a --map without a track name');
    return unique(assignments);
  }
  const parts = partsChosen(song, options, partsOfOnlyTrack);
  return unique([...assignments, { file, parts }]);
}

/** `TRACK=MAP.yaml`, where there is such a track or no such file. */
function keyedMap(song: Song, text: string): { readonly name: string; readonly file: string } | undefined {
  for (let at = text.indexOf('='); at > 0; at = text.indexOf('=', at + 1))
    if (findTrack(song, text.slice(0, at))) return split(text, at);
  const at = text.indexOf('=');
  if (at <= 0 || existsSync(text)) return undefined;
  return split(text, at);
}

function split(text: string, at: number): { readonly name: string; readonly file: string } {
  return { name: text.slice(0, at), file: text.slice(at + 1) };
}

/** A part may be named twice with one map, but not with two. */
function unique(assignments: readonly Assignment[]): readonly Assignment[] {
  const seen = new Map<string, string>();
  return assignments.map(({ file, parts }) => ({
    file,
    parts: parts.filter((part) => {
      const key = `${part.track} ${part.channel}`;
      const other = seen.get(key);
      seen.set(key, file);
      if (other !== undefined && other !== file)
        throw new UsageError(`track ${part.track} is given two maps, ${quoted(other)} and ${quoted(file)}`);
      return other === undefined;
    }),
  }));
}

function aboutParts(song: Song, assignments: readonly Assignment[]): readonly Diagnostic[] {
  const parts = assignments.flatMap((assignment) => assignment.parts);
  if (parts.length === 0)
    return [
      diagnostic(
        'no-notes',
        { kind: 'file', file: song.file },
        'there are no notes to compile in the tracks that were chosen',
        'see that the recording is in this file, and on the track that --track names',
      ),
    ];
  return [...new Set(parts.map(({ track }) => track))].flatMap((track): Diagnostic[] => {
    const channels = parts.filter((part) => part.track === track).map((part) => part.channel + 1);
    if (channels.length < 2) return [];
    return [
      diagnostic(
        'several-channels',
        { kind: 'file', file: song.file },
        `track ${track} has notes on channels ${channels.join(', ')}; all of them are compiled`,
        '--channel NUMBER compiles one of them only',
      ),
    ];
  });
}
