import { quoted } from '../diagnostics/index.js';
import { isDynamicMark } from '../dynamics/index.js';
import type { ArticulationMap } from '../map/index.js';
import type { Part, Song } from '../midi/index.js';
import { type CommonLevel, jobLevel, partLevel, writtenLevel } from './common-level.js';
import { dividedPart } from './divided.js';
import { carried, drawn, missingLevels, velocitiesKept, velocitiesOn } from './dynamics.js';
import { keptBy } from './kept.js';
import type { CueJob, PlacedPart } from './plan.js';
import { layerPlan } from './plan-layer.js';
import { firstNote, given, type PartPlan, type Planning, playersIn } from './planning.js';
import { played } from './played.js';
import { seated, seatWarnings } from './seat.js';
import type { Cue } from './types.js';
import { editOf } from './voice.js';

/**
 * Works out a part: its controllers, its jobs, and its layers on tracks of their own.
 *
 * @param firstNumber the number of the first track that is added
 * @param common what measured libraries are brought to
 */
export function planPart(
  song: Song,
  cue: Cue,
  maps: ReadonlyMap<string, ArticulationMap>,
  placed: PlacedPart,
  firstNumber: number,
  common?: CommonLevel,
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
  const placing = wanted.seat === undefined ? undefined : seated(map, wanted.seat, cue.controllers.seat);
  const { divide } = wanted;
  const divided = new Map(
    divide ? parts.map((part) => [part.channel, dividedPart(song, part, map, wanted, divide)] as const) : [],
  );
  const planning: Planning = {
    song,
    cue,
    maps,
    placed,
    playing,
    divided,
    ...(placing ? { heard: placing.heard } : {}),
    ...(common ? { common } : {}),
  };
  const name = quoted(wanted.name);
  const bases = parts.map((part) => basePlan(planning, part, name, placing?.value));
  const layers = wanted.layers.map((layer, index) => layerPlan(planning, layer, firstNumber + index));
  return {
    jobs: [...bases, ...layers].flatMap(({ jobs }) => jobs),
    edits: bases.flatMap(({ edits }) => edits),
    added: layers.flatMap(({ added }) => added),
    diagnostics: [
      ...(placing ? seatWarnings(name, wanted.place, placing) : []),
      ...[...divided.values()].flatMap(({ diagnostics }) => diagnostics),
      ...(wanted.dynamics ? missingLevels(name, wanted.place, map) : []),
      ...[...bases, ...layers].flatMap(({ diagnostics }) => diagnostics),
    ],
  };
}

function basePlan(
  { song, cue, placed: { wanted, map }, playing, divided: byChannel, common }: Planning,
  part: Part,
  name: string,
  seatValue: number | undefined,
): PartPlan {
  const track = song.tracks[part.track - 1];
  const one = playing.find((other) => other.part === part);
  const written = writtenLevel(common, partLevel(wanted), map);
  const kept = track && keptBy(cue, wanted, map, track, part.channel);
  const divided = byChannel.get(part.channel);
  const plain = one?.curve
    ? velocitiesOn(one.curve, map)
    : kept?.recorded && velocitiesKept(kept.recorded, map);
  const velocityOf = divided ? divided.velocityOf(plain) : plain;
  const job: CueJob = {
    name: wanted.name,
    part,
    map,
    ...(wanted.timing ? { timing: wanted.timing } : {}),
    ...(velocityOf ? { velocityOf } : {}),
    ...(divided ? { playersOf: divided.playersOf } : {}),
    ...(one?.curve ? { readsMark: isDynamicMark } : {}),
    ...jobLevel(written),
  };
  if (!track) return { jobs: [job], edits: [], added: [], diagnostics: [] };
  const { dynamics: library } = map;
  const dynamics = one?.curve
    ? drawn(one.curve, map, library, one.earliest)
    : kept?.recorded && library && carried(kept.recorded, library);
  const { edit, diagnostics } = editOf(
    {
      name,
      place: wanted.place,
      track,
      channel: part.channel,
      firstTick: firstNote(track, part.channel),
      map,
      ...given({
        written,
        players: playersIn(wanted, map),
        seatValue,
        dynamics,
        steps: divided?.steps,
      }),
    },
    cue.controllers,
  );
  return {
    jobs: [job],
    edits: edit ? [{ track: part.track, edit }] : [],
    added: [],
    diagnostics: [...(kept?.diagnostics ?? []), ...diagnostics],
  };
}
