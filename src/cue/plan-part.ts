import { type Diagnostic, diagnostic, quoted } from '../diagnostics/index.js';
import { isDynamicMark, type Placing } from '../dynamics/index.js';
import type { ArticulationMap } from '../map/index.js';
import type { Part, Song, Track } from '../midi/index.js';
import { asPlayed, type TimingOptions } from '../timing/index.js';
import { carried, drawn, missingLevels, velocitiesOn } from './dynamics.js';
import { type ChannelEdit, edited } from './edit.js';
import { layerNotes, layerVelocity } from './layer.js';
import { layerTrack } from './layer-track.js';
import type { CueJob, PlacedPart } from './plan.js';
import { type Played, played } from './played.js';
import { farSeat, seated } from './seat.js';
import type { Cue, CueLayer, CuePart } from './types.js';
import { editOf, type Voice } from './voice.js';

/** What a part of a cue comes to. */
export interface PartPlan {
  readonly jobs: readonly CueJob[];
  /** What becomes of the part's own track; absent where nothing does. */
  readonly edits: readonly { readonly track: number; readonly edit: ChannelEdit }[];
  readonly added: readonly Track[];
  readonly diagnostics: readonly Diagnostic[];
}

interface Planning {
  readonly song: Song;
  readonly cue: Cue;
  readonly maps: ReadonlyMap<string, ArticulationMap>;
  readonly placed: PlacedPart;
  /** By channel; only where layers or dynamics need them. */
  readonly playing: readonly Played[];
  /** Where the part is heard, if the cue says so. */
  readonly heard?: number;
}

/**
 * Works out a part: its controllers, its jobs, and its layers on tracks of their own.
 *
 * @param firstNumber the number of the first track that is added
 */
export function planPart(
  song: Song,
  cue: Cue,
  maps: ReadonlyMap<string, ArticulationMap>,
  placed: PlacedPart,
  firstNumber: number,
): PartPlan {
  const { wanted, map, parts } = placed;
  const isMade = wanted.dynamics !== undefined && wanted.dynamics.source !== 'keep';
  const looksAtNotes = isMade || wanted.layers.length > 0;
  const playing = looksAtNotes
    ? parts.flatMap((part) => {
        const track = song.tracks[part.track - 1];
        return track ? [played(song, track, part, wanted, map)] : [];
      })
    : [];
  const placing = wanted.seat === undefined ? undefined : seated(map, wanted.seat);
  const planning: Planning = {
    song,
    cue,
    maps,
    placed,
    playing,
    ...(placing ? { heard: placing.heard } : {}),
  };
  const name = quoted(wanted.name);
  const bases = parts.map((part) => basePlan(planning, part, name, placing?.value));
  const layers = wanted.layers.map((layer, index) => layerPlan(planning, layer, firstNumber + index));
  return {
    jobs: [...bases, ...layers].flatMap(({ jobs }) => jobs),
    edits: bases.flatMap(({ edits }) => edits),
    added: layers.flatMap(({ added }) => added),
    diagnostics: [
      ...(placing ? farSeat(name, wanted.place, placing) : []),
      ...(wanted.dynamics ? missingLevels(name, wanted.place, map, wanted.dynamics) : []),
      ...[...bases, ...layers].flatMap(({ diagnostics }) => diagnostics),
    ],
  };
}

function basePlan(
  { song, cue, placed: { wanted, map }, playing }: Planning,
  part: Part,
  name: string,
  seatValue: number | undefined,
): PartPlan {
  const track = song.tracks[part.track - 1];
  const one = playing.find((other) => other.part === part);
  const job: CueJob = {
    name: wanted.name,
    part,
    map,
    ...(wanted.timing ? { timing: wanted.timing } : {}),
    ...(one?.curve ? { velocityOf: velocitiesOn(one.curve, map), readsMark: isDynamicMark } : {}),
  };
  if (!track) return { jobs: [job], edits: [], added: [], diagnostics: [] };
  const { dynamics: library } = map;
  const dynamics = one?.curve
    ? drawn(one.curve, map, library, one.earliest)
    : wanted.dynamics?.source === 'keep' && library
      ? carried(library, library, true)
      : undefined;
  const level = partLevel(wanted);
  const { edit, diagnostics } = editOf(
    {
      name,
      place: wanted.place,
      track,
      channel: part.channel,
      firstTick: firstNote(track, part.channel),
      map,
      ...given({ level, players: wanted.players, seatValue, dynamics }),
    },
    cue.controllers,
  );
  return { jobs: [job], edits: edit ? [{ track: part.track, edit }] : [], added: [], diagnostics };
}

function layerPlan(planning: Planning, layer: CueLayer, number: number): PartPlan {
  const { song, cue, maps, placed, playing, heard } = planning;
  const { wanted, map: base } = placed;
  const map = maps.get(layer.map.text);
  const [first] = playing;
  if (!map || !first) return { jobs: [], edits: [], added: [], diagnostics: [] };
  const name = `layer ${quoted(layer.name)} of ${quoted(wanted.name)}`;
  const made = playing.map((one) => layerNotes(one.line, layer, base, map, one.moved));
  const track = layerTrack(song, {
    number,
    name: `${wanted.name} – ${layer.name}`,
    base: first.track,
    channels: new Set(playing.map(({ part }) => part.channel)),
    notes: made.flatMap(({ notes }) => notes),
    isArticulation: (mark) => map.articulations.has(mark),
  });
  const placing = layerPlacing(layer, map, heard);
  const level =
    layer.level === undefined && wanted.level === undefined
      ? undefined
      : (wanted.level ?? 0) + (layer.level ?? 0);
  const voices = playing.map(
    (one): Voice => ({
      name,
      place: layer.place,
      track,
      channel: one.part.channel,
      firstTick: firstNote(track, one.part.channel),
      map,
      ...given({
        level,
        players: wanted.players,
        seatValue: placing?.value,
        dynamics: layerDynamics(planning, one, map),
      }),
    }),
  );
  const edits = voices.map((voice) => editOf(voice, cue.controllers));
  const done = edited(
    track,
    edits.flatMap(({ edit }) => edit ?? []),
  );
  return {
    jobs: playing.map((one, index) => ({
      ...layerJob(planning, layer, map, one, done),
      doubles: new Set(made[index]?.notes.map(({ of }) => of)),
    })),
    edits: [],
    added: [done],
    diagnostics: [
      ...(song.format === 2 ? [noRoom(name, layer)] : []),
      ...(wanted.dynamics && wanted.dynamics.source !== 'keep'
        ? missingLevels(name, layer.place, map, wanted.dynamics)
        : []),
      ...(placing ? farSeat(name, layer.place, placing) : []),
      ...made.flatMap(({ diagnostics }) => diagnostics),
      ...edits.flatMap(({ diagnostics }) => diagnostics),
    ],
  };
}

/** A layer shares the place of the part, all the way, unless it has one of its own. */
function layerPlacing(
  { seat }: CueLayer,
  map: ArticulationMap,
  heard: number | undefined,
): Placing | undefined {
  if (seat !== undefined) return seated(map, seat);
  return heard === undefined ? undefined : seated(map, heard, 1);
}

function layerDynamics(
  { placed: { wanted, map: base } }: Planning,
  { curve, earliest }: Played,
  map: ArticulationMap,
): Voice['dynamics'] {
  if (curve) return drawn(curve, map, base.dynamics, earliest);
  if (!base.dynamics || !map.dynamics) return undefined;
  return carried(base.dynamics, map.dynamics, wanted.dynamics?.source === 'keep');
}

function layerJob(
  { placed: { wanted } }: Planning,
  layer: CueLayer,
  map: ArticulationMap,
  { part, curve }: Played,
  track: Track,
): CueJob {
  const timing = layerTiming(wanted, layer);
  return {
    name: wanted.name,
    layer: layer.name,
    part: { track: track.number, trackName: track.name, channel: part.channel },
    map,
    ...(timing ? { timing } : {}),
    ...(curve ? { velocityOf: velocitiesOn(curve, map, layerVelocity(layer)) } : {}),
    readsMark: isDynamicMark,
  };
}

/** A layer's notes stand where the part's were pulled, rolled and loosened to; the rest is its library's own. */
function layerTiming({ timing }: CuePart, layer: CueLayer): TimingOptions | undefined {
  const { compensate = false, joins = false } = layer.timing ?? timing ?? {};
  if (!compensate && !joins) return undefined;
  return { ...asPlayed, compensate, joins, ...(timing ? { seed: timing.seed } : {}) };
}

/** A layer's level is against the part's, so that the part has to have one. */
function partLevel({ level, layers }: CuePart): number | undefined {
  return level ?? (layers.some((layer) => layer.level !== undefined) ? 0 : undefined);
}

function firstNote(track: Track, channel: number): number {
  const index = track.events.findIndex((event) => event.type === 'noteOn' && event.channel === channel);
  return index < 0 ? 0 : (track.ticks[index] ?? 0);
}

function noRoom(name: string, { place }: CueLayer): Diagnostic {
  return diagnostic(
    'layer-format',
    place,
    `${name} needs a track of its own, and the source is of format 2, whose tracks do not play together`,
    'export the source as format 1',
  );
}

/** The fields that are there. */
function given(fields: {
  readonly level: number | undefined;
  readonly players: number | undefined;
  readonly seatValue: number | undefined;
  readonly dynamics: Voice['dynamics'];
}): Pick<Voice, 'level' | 'players' | 'seatValue' | 'dynamics'> {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined));
}
