import type { Outcome } from '../../diagnostics/index.js';
import type { ArticulationMap } from '../../map/index.js';
import type { Song } from '../../midi/index.js';
import { briefJson, briefText, inspect, inspectBriefly, type Music, musicOf } from '../../music/index.js';
import { type CommonOptions, jsonOf, loadSong, printJson, show } from '../context.js';
import { exit, type Io } from '../io.js';
import { loadJobs } from '../jobs.js';
import { partsChosen, partsOfEvery } from '../tracks.js';

export interface InspectOptions extends CommonOptions {
  readonly track: readonly string[];
  /** 1–16. */
  readonly channel?: number;
  /** `MAP.yaml`, or `TRACK=MAP.yaml`; none is needed. */
  readonly map: readonly string[];
  /** How often harmony is told; where it is found to change, if absent. */
  readonly per?: 'beat' | 'bar';
  /** One screen. */
  readonly brief?: boolean;
}

/** `keyslip inspect`: says what sounds mechanical in a recording and what mends it; what sounds together, and where it lies. */
export async function inspectCommand(input: string, options: InspectOptions, io: Io): Promise<number> {
  const { value: song, diagnostics: ofSong } = await loadSong(input, options, io);
  const { value: maps, diagnostics: ofMaps } = await mapsFor(song, options, io);
  const diagnostics = [...ofSong, ...ofMaps];
  if (song && maps) {
    const parts = partsChosen(song, options, partsOfEvery);
    const music = musicOf(song, parts, options.per ?? 'found', ({ track, channel }) =>
      maps.get(`${track} ${channel}`),
    );
    if (options.json)
      printJson({ input, ...inspectionJson(music, options), diagnostics: jsonOf(diagnostics) }, io);
    else io.out(`${inspectionText(music, options) || 'There are no notes in this file.'}\n`);
  } else if (options.json) printJson({ input, diagnostics: jsonOf(diagnostics) }, io);
  return show(diagnostics, options, io) || (song && maps ? exit.done : exit.errors);
}

function inspectionJson(music: Music, { brief }: InspectOptions): object {
  if (brief) return briefJson(inspectBriefly(music));
  return Object.fromEntries(inspect(music).map((one) => [one.name, one.json()]));
}

function inspectionText(music: Music, { brief }: InspectOptions): string {
  if (brief) return briefText(inspectBriefly(music));
  const told = inspect(music).map((one) => one.text());
  return told.filter((text) => text !== '').join('\n\n');
}

/** The maps that are given, by track and channel. Nothing is asked of parts that have none. */
async function mapsFor(
  song: Song | undefined,
  options: InspectOptions,
  io: Io,
): Promise<Outcome<ReadonlyMap<string, ArticulationMap>>> {
  if (!song || options.map.length === 0) return { value: new Map(), diagnostics: [] };
  const read = { value: song, diagnostics: [] };
  const { value, diagnostics } = await loadJobs(read, { ...options, restate: [], pull: [] }, io);
  const found = value?.jobs.map(({ part, map }) => [`${part.track} ${part.channel}`, map] as const);
  return { value: found && new Map(found), diagnostics };
}
