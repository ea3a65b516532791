import type { CompiledPart } from '../../compile/index.js';
import { type Diagnostic, nearest, type Outcome, quoted } from '../../diagnostics/index.js';
import type { ArticulationMap } from '../../map/index.js';
import { beatAt, clockOf, notesWithin, noteTick, type Part, partsOf, type Song } from '../../midi/index.js';
import {
  briefJson,
  briefText,
  inspect,
  inspectBriefly,
  type Music,
  musicOf,
  sectionsOfJobs,
} from '../../music/index.js';
import { parseAt, placesWithin } from '../at.js';
import { type CommonOptions, loadSong, show } from '../context.js';
import {
  type CuePartOptions,
  compiledCue,
  refuseOptionsOfCues,
  refuseOptionsOfRecordings,
} from '../cue-input.js';
import { isCueFile } from '../cue-name.js';
import { exit, type Io, UsageError } from '../io.js';
import { loadJobs } from '../jobs.js';
import { jsonOf, printJson } from '../json.js';
import { partsChosen, partsOfEvery } from '../tracks.js';

export interface InspectOptions extends CommonOptions, CuePartOptions {
  readonly track: readonly string[];
  /** 1–16. */
  readonly channel?: number;
  /** Only the notes that are struck in these bars. */
  readonly at?: string;
  /** `MAP.yaml`, or `TRACK=MAP.yaml`; none is needed. */
  readonly map: readonly string[];
  /** How often harmony is told; where it is found to change, if absent. */
  readonly per?: 'beat' | 'bar';
  /** The part that is said to have the tune. */
  readonly tune?: string;
  /** One screen. */
  readonly brief?: boolean;
}

/** `keyslip inspect`: says what sounds mechanical in a recording and what mends it; what sounds together, and where it lies. */
export async function inspectCommand(input: string, options: InspectOptions, io: Io): Promise<number> {
  const { music, diagnostics } = isCueFile(input)
    ? await musicOfCue(input, options, io)
    : await musicOfRecording(input, options, io);
  if (music) {
    if (options.json)
      printJson({ input, ...inspectionJson(music, options), diagnostics: jsonOf(diagnostics) }, io);
    else io.out(`${inspectionText(music, options) || 'There are no notes in this file.'}\n`);
  } else if (options.json) printJson({ input, diagnostics: jsonOf(diagnostics) }, io);
  return show(diagnostics, options, io) || (music ? exit.done : exit.errors);
}

interface Read {
  readonly music?: Music;
  readonly diagnostics: readonly Diagnostic[];
}

async function musicOfRecording(input: string, options: InspectOptions, io: Io): Promise<Read> {
  refuseOptionsOfCues(options);
  const { value: song, diagnostics: ofSong } = await loadSong(input, options, io);
  const { value: maps, diagnostics: ofMaps } = await mapsFor(song, options, io);
  const diagnostics = [...ofSong, ...ofMaps];
  if (!song || !maps) return { diagnostics };
  const isWithin = barsAsked(song, options.at);
  const heard = isWithin ? notesWithin(song, isWithin) : song;
  const parts = playingIn(heard, partsChosen(song, options, partsOfEvery));
  const music = musicOf(heard, parts, options.per ?? 'found', ({ track, channel }) =>
    maps.get(`${track} ${channel}`),
  );
  return { music: withTune(music, options.tune), diagnostics };
}

/** The parts of a cue as it is compiled: with its levels, its layers and its players. */
async function musicOfCue(input: string, options: InspectOptions, io: Io): Promise<Read> {
  refuseOptionsOfRecordings(options);
  const { compiled, diagnostics } = await compiledCue(input, options.part, options, io);
  if (!compiled) return { diagnostics };
  const { planned, parts, tracks } = compiled;
  const isWithin = barsAsked(planned.song, options.at);
  const heard = isWithin ? notesWithin(planned.song, isWithin) : planned.song;
  const jobs = parts.map((one, index) => ({
    name: one.part.trackName,
    ...planned.jobs[index],
    compiled: one,
    isWithin: isWithin && rowsWithin(one, isWithin),
  }));
  const bases = playingIn(
    heard,
    jobs.filter(({ layer }) => layer === undefined).map(({ compiled: { part } }) => part),
  );
  const mapOf = (part: Part) =>
    parts.find(({ part: { track, channel } }) => track === part.track && channel === part.channel)?.map;
  const sections = sectionsOfJobs(heard, tracks, jobs);
  const music = musicOf(heard, bases, options.per ?? 'found', mapOf, sections);
  return { music: withTune(music, options.tune), diagnostics };
}

/** Whether a tick of a track lies in some bars. */
type IsWithin = (tick: number, track: number) => boolean;

/** Whether something is struck in the bars that are asked for; undefined where none are. */
function barsAsked(song: Song, at: string | undefined): IsWithin | undefined {
  if (at === undefined) return undefined;
  const stretch = parseAt(at);
  const within = song.tracks.map(({ number }) => {
    const clock = clockOf(song, number);
    const isThere = placesWithin(stretch, clock);
    return (tick: number) => isThere(beatAt(clock, tick));
  });
  return (tick, track) => within[track - 1]?.(tick) ?? false;
}

/** The parts that have notes in a song. */
function playingIn({ tracks }: Song, parts: readonly Part[]): readonly Part[] {
  const playing = new Set(tracks.flatMap(partsOf).map(({ track, channel }) => `${track} ${channel}`));
  return parts.filter(({ track, channel }) => playing.has(`${track} ${channel}`));
}

/** Whether the note of a row was played there. */
function rowsWithin({ part, decided }: CompiledPart, isWithin: IsWithin): (row: number) => boolean {
  return (row) => isWithin(noteTick(decided, row), part.track);
}

/** The music with one of its sections said to have the tune. */
function withTune(music: Music, tune: string | undefined): Music {
  if (tune === undefined) return music;
  const names = music.sections.map(({ name }) => name);
  if (!names.includes(tune)) {
    const near = nearest(tune, names);
    const hint =
      near === undefined ? `sections are ${names.map(quoted).join(', ')}` : `did you mean ${quoted(near)}?`;
    throw new UsageError(`no section ${quoted(tune)} can have the tune; ${hint}`);
  }
  return { ...music, sections: music.sections.map((one) => ({ ...one, hasTune: one.name === tune })) };
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
