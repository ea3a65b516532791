import type { Players } from '../compile/index.js';
import { type Diagnostic, diagnostic, nearest, quoted } from '../diagnostics/index.js';
import { isDynamicMark, type Placing, playersOffset, velocityBy } from '../dynamics/index.js';
import type { ArticulationMap } from '../map/index.js';
import type { Track } from '../midi/index.js';
import { areMeasured, jobLevel, writtenLevel } from './common-level.js';
import type { Divided } from './divided.js';
import { carried, drawn, missingLevels, velocitiesOn } from './dynamics.js';
import { edited } from './edit.js';
import { keptBy } from './kept.js';
import { type LayerNote, layerNotes, layerVelocity } from './layer.js';
import { isTimedByMeasurement, lateCopies, layerTiming } from './layer-timing.js';
import { layerTrack } from './layer-track.js';
import { withOnly } from './one-articulation.js';
import type { CueJob } from './plan.js';
import { firstNote, given, type PartPlan, type Planning, playersIn } from './planning.js';
import { earliestSwitch, type Played } from './played.js';
import { seated, seatWarnings } from './seat.js';
import type { CueLayer } from './types.js';
import { editOf, type Voice } from './voice.js';

/** Works out a layer of a part, on a track of its own. Diagnostics: unknown-articulation, layer-channels, layer-format. */
export function layerPlan(planning: Planning, layer: CueLayer, number: number): PartPlan {
  const { song, cue, maps, placed, playing, heard } = planning;
  const { wanted, map: base } = placed;
  const [first] = playing;
  const name = `layer ${quoted(layer.name)} of ${quoted(wanted.name)}`;
  const library = layer.map ? maps.get(layer.map.text) : base;
  const map = library && withOnly(library, layer.articulation?.text);
  const faults = [
    ...(library && !map ? [unknownArticulation(library, layer)] : []),
    ...(layer.channel !== undefined && playing.length > 1 ? [severalChannels(name, layer, playing)] : []),
  ];
  if (!map || !first || faults.length > 0) return { jobs: [], edits: [], added: [], diagnostics: faults };
  const isTogether = isTimedByMeasurement(wanted, layer, base, map);
  const made = playing.map((one) => {
    const divided = planning.divided.get(one.part.channel);
    const found = layerNotes(one.line, layer, base, map, one.moved, divided?.offsetOf);
    return {
      ...found,
      ...(divided ? { playersOf: playersOfCopies(one, found.notes, divided) } : {}),
      ...(isTogether ? { heardAfter: lateCopies(one, found.notes, base) } : {}),
    };
  });
  const track = layerTrack(song, {
    number,
    name: `${wanted.name} – ${layer.name}`,
    base: first.track,
    channels: new Set(playing.map(({ part }) => part.channel)),
    notes: made.flatMap(({ notes }) => notes),
    ...(layer.channel === undefined ? {} : { channel: layer.channel - 1 }),
    isArticulation: (mark) => map.articulations.has(mark),
  });
  const placing = layerPlacing(layer, map, heard ?? seatOf(base, map), cue.controllers.seat);
  const isLevelled = layer.level !== undefined || wanted.level !== undefined;
  const level = isLevelled ? (wanted.level ?? 0) + (layer.level ?? 0) : undefined;
  const written = writtenLevel(planning.common, level, map, base);
  const voices = playing.map(
    (one, index): Voice => ({
      name,
      place: layer.place,
      track,
      channel: channelOf(layer, one),
      firstTick: firstNote(track, channelOf(layer, one)),
      map,
      ...given({
        written,
        players: playersIn(wanted, map),
        seatValue: placing?.value,
        dynamics: layerDynamics(planning, one, map, earliestOf(planning, layer, map, one, made[index])),
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
      ...layerJob(planning, layer, map, one, done, made[index] ?? {}),
      doublesChannel: one.part.channel,
      doubles: new Set(made[index]?.notes.map(({ of }) => of)),
      ...jobLevel(written),
    })),
    edits: [],
    added: [done],
    diagnostics: [
      ...(song.format === 2 ? [noRoom(name, layer)] : []),
      ...(wanted.dynamics && wanted.dynamics.source !== 'keep' ? missingLevels(name, layer.place, map) : []),
      ...(placing ? seatWarnings(name, layer.place, placing) : []),
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
  controller: number,
): Placing | undefined {
  if (seat !== undefined) return seated(map, seat, controller);
  return heard === undefined ? undefined : seated(map, heard, controller, 1);
}

function layerDynamics(
  { cue, placed: { wanted, map: base } }: Planning,
  { curve, track, part: { channel } }: Played,
  map: ArticulationMap,
  earliest: number,
): Voice['dynamics'] {
  if (curve) return drawn(curve, map, base.dynamics, earliest);
  const recorded =
    wanted.dynamics?.source === 'keep' ? keptBy(cue, wanted, base, track, channel).recorded : base.dynamics;
  return recorded && map.dynamics && carried(recorded, map.dynamics);
}

/** By this tick the first switch of a layer is there, and of its part: its library may speak more slowly. */
function earliestOf(
  { song, placed: { wanted } }: Planning,
  layer: CueLayer,
  map: ArticulationMap,
  { part, earliest }: Played,
  { notes = [], heardAfter }: { readonly notes?: readonly LayerNote[] } & Pick<CueJob, 'heardAfter'> = {},
): number {
  const first = notes.reduce((least, { tick }) => Math.min(least, tick), Number.POSITIVE_INFINITY);
  if (!Number.isFinite(first)) return earliest;
  const isCompensated = layerTiming(wanted, layer, heardAfter !== undefined)?.compensate === true;
  return Math.min(earliest, earliestSwitch(song, part, map, first, isCompensated));
}

function layerJob(
  { placed: { wanted, map: base } }: Planning,
  layer: CueLayer,
  map: ArticulationMap,
  one: Played,
  track: Track,
  { playersOf, heardAfter }: Pick<CueJob, 'playersOf' | 'heardAfter'>,
): CueJob {
  const timing = layerTiming(wanted, layer, heardAfter !== undefined);
  const { curve } = one;
  const onCurve = curve && velocitiesOn(curve, map, layerVelocity(layer));
  const velocityOf = onCurve && playersOf ? softened(onCurve, playersOf) : onCurve;
  return {
    name: wanted.name,
    layer: layer.name,
    part: { track: track.number, trackName: track.name, channel: channelOf(layer, one) },
    map,
    ...(timing ? { timing } : {}),
    ...(velocityOf ? { velocityOf } : {}),
    ...(playersOf ? { playersOf } : {}),
    ...(heardAfter ? { heardAfter } : {}),
    readsMark: (mark) =>
      isDynamicMark(mark) || (layer.articulation !== undefined && base.articulations.has(mark)),
  };
}

/** Who plays the notes of a layer of a divided part: who plays those that they double. */
function playersOfCopies(
  { line }: Played,
  notes: readonly LayerNote[],
  divided: Divided,
): NonNullable<CueJob['playersOf']> {
  const players = new Map<string, Players>();
  for (const { of, tick, pitch } of notes) {
    const note = line.notes[of];
    if (note) players.set(`${tick} ${pitch}`, divided.playersOf(note));
  }
  return ({ tick, pitch }) => players.get(`${tick} ${pitch}`) ?? { playing: 1, of: 1 };
}

/** Where a part without a seat is heard, if it was measured, and so was the library that doubles it. */
function seatOf(base: ArticulationMap, map: ArticulationMap): number | undefined {
  return areMeasured(base, map) && map.seat !== undefined ? base.seat : undefined;
}

/** Velocities as much softer as fewer players are. */
function softened(
  velocityOf: NonNullable<CueJob['velocityOf']>,
  playersOf: NonNullable<CueJob['playersOf']>,
): NonNullable<CueJob['velocityOf']> {
  return (decision) => {
    const velocity = velocityOf(decision);
    const { playing, of } = playersOf(decision.note);
    return velocity === undefined ? undefined : velocityBy(velocity, playersOffset(playing, of));
  };
}

function channelOf({ channel }: CueLayer, { part }: Played): number {
  return channel === undefined ? part.channel : channel - 1;
}

function noRoom(name: string, { place }: CueLayer): Diagnostic {
  return diagnostic(
    'layer-format',
    place,
    `${name} needs a track of its own, and the source is of format 2, whose tracks do not play together`,
    'export the source as format 1',
  );
}

function unknownArticulation(
  { articulations }: ArticulationMap,
  { articulation, place }: CueLayer,
): Diagnostic {
  const wanted = articulation?.text ?? '';
  const names = [...articulations.keys()];
  const near = nearest(wanted, names);
  return diagnostic(
    'unknown-articulation',
    articulation?.place ?? place,
    `${quoted(wanted)} is no articulation of the layer's map`,
    near === undefined ? `it has ${names.slice(0, 20).join(', ')}` : `did you mean ${quoted(near)}?`,
  );
}

function severalChannels(name: string, { place }: CueLayer, playing: readonly Played[]): Diagnostic {
  const channels = playing.map(({ part }) => part.channel + 1).join(', ');
  return diagnostic(
    'layer-channels',
    place,
    `${name} has one channel, but its part has notes on channels ${channels}`,
    'channel: NUMBER on the part takes one of them, or take the channel of the layer out',
  );
}
