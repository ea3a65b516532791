import { type Diagnostic, diagnostic, type Place, quoted } from '../diagnostics/index.js';
import { playersOffset } from '../dynamics/index.js';
import { type ArticulationMap, switchesWith } from '../map/index.js';
import { controllerEvents, type Track, tickOf } from '../midi/index.js';
import type { ChannelEdit, NewController } from './edit.js';
import { fineValues, lowByteOf } from './fine.js';
import { type LevelOffset, type LevelStep, levelOffset, type Offset, seatOffset } from './levels.js';
import { lawOf } from './seat.js';
import type { Cue } from './types.js';

/** What a voice does with the controller of its library's dynamics. */
export interface VoiceDynamics {
  /** The controller that the dynamics were recorded on. */
  readonly recorded: number;
  /** The controller of the voice's library. */
  readonly controller: number;
  /**
   * What a recorded value, 0 to below 128, becomes, not rounded; undefined where recorded values give way to those added.
   */
  readonly scale?: (value: number) => number;
  readonly added: readonly NewController[];
}

/** A library that plays notes of a part: the part itself, or a layer of it. */
export interface Voice {
  /** For messages: `"Horns"`, or `layer "bite" of "Horns"`. */
  readonly name: string;
  readonly place: Place;
  /** The track that it plays, before anything is edited. */
  readonly track: Track;
  /** 0–15. */
  readonly channel: number;
  /** The tick of its first note. */
  readonly firstTick: number;
  readonly map: ArticulationMap;
  /** Unit: dB. */
  readonly level?: number;
  /** Whether that brings it to a loudness that the cue says itself. */
  readonly isBrought?: boolean;
  /** Changes of it on the way; none, if absent. */
  readonly steps?: readonly LevelStep[];
  readonly players?: number;
  /** The value of the seat's controller. */
  readonly seatValue?: number;
  readonly dynamics?: VoiceDynamics;
}

/** What becomes of a voice's controllers. Diagnostics: no-headroom, no-players, controller-taken. */
export function editOf(
  voice: Voice,
  controllers: Cue['controllers'],
): { readonly edit: ChannelEdit | undefined; readonly diagnostics: readonly Diagnostic[] } {
  const { track, channel, firstTick, seatValue } = voice;
  const { by, diagnostics: ofPlayers } = wantedLevel(voice);
  const steps = voice.steps ?? [];
  const isLevelled = by !== undefined || steps.length > 0;
  const level = isLevelled
    ? levelOffset(track, channel, firstTick, controllers.level, by ?? 0, steps)
    : undefined;
  const seat =
    seatValue === undefined
      ? undefined
      : seatOffset(
          track,
          channel,
          firstTick,
          controllers.seat,
          seatValue,
          lawOf(voice.map, controllers.seat),
        );
  const offsets = [level, seat].filter((offset) => offset !== undefined);
  const diagnostics = [
    ...ofPlayers,
    ...headroom(voice, level),
    ...(level ? controllerTaken(voice, 'level', controllers.level) : []),
    ...(seat ? controllerTaken(voice, 'seat', controllers.seat) : []),
  ];
  if (offsets.length === 0 && !voice.dynamics) return { edit: undefined, diagnostics };
  return { edit: joined(voice, offsets), diagnostics };
}

function joined(voice: Voice, offsets: readonly Offset[]): ChannelEdit {
  const { channel, track, dynamics } = voice;
  const change = dynamics && dynamicsChange(voice, dynamics);
  return {
    channel,
    added: [...offsets.flatMap(({ added }) => added), ...(dynamics?.added ?? [])],
    change(controller, value, index) {
      const now = change?.(controller, value, index);
      if (now !== undefined) return now ?? undefined;
      const offset = offsets.find((one) => one.controller === controller);
      return { controller, value: offset ? offset.change(value, tickOf(track.columns, index)) : value };
    },
  };
}

/** What becomes of controllers that have to do with dynamics: null takes one out; undefined for any other. */
function dynamicsChange(
  { channel, track, map }: Voice,
  { recorded, controller: own, scale }: VoiceDynamics,
): (controller: number, value: number, index: number) => ReturnType<ChannelEdit['change']> | null {
  const isMoved = recorded !== own && controllerEvents(track.columns, channel, recorded).length > 0;
  const low = (controller: number) => {
    const found = lowByteOf(controller);
    return found === undefined || switchesWith(map, found) ? undefined : found;
  };
  const [lowRecorded, lowOwn] = [low(recorded), low(own)];
  const fine =
    scale && lowRecorded !== undefined && lowOwn !== undefined
      ? fineValues(track, channel, recorded, lowRecorded, scale)
      : undefined;
  return (controller, value, index) => {
    if (controller === recorded)
      return scale ? { controller: own, value: fine?.get(index) ?? Math.round(scale(value)) } : null;
    if (controller === lowRecorded) {
      const now = fine?.get(index);
      return now === undefined || lowOwn === undefined ? null : { controller: lowOwn, value: now };
    }
    // What stands on the library's controller gives way to the recorded dynamics, or to the curve.
    const givesWay = isMoved || !scale;
    return givesWay && (controller === own || controller === lowOwn) ? null : undefined;
  };
}

/** The level that a voice is to have against its library, its number of players included. */
function wantedLevel({ name, place, map, level, players }: Voice): {
  readonly by: number | undefined;
  readonly diagnostics: readonly Diagnostic[];
} {
  if (players === undefined) return { by: level, diagnostics: [] };
  if (map.players !== undefined)
    return { by: (level ?? 0) + playersOffset(players, map.players), diagnostics: [] };
  const found: Diagnostic = diagnostic(
    'no-players',
    place,
    `${name} is for ${players} players, but its map does not say how many were recorded`,
    `give players in ${quoted(map.file)}; until then the number changes nothing`,
  );
  return { by: level, diagnostics: [found] };
}

/** Differences smaller than this are none: half a step of the controller at its top. Unit: dB. */
const smallest = 0.07;

function headroom({ name, place, isBrought }: Voice, level: LevelOffset | undefined): readonly Diagnostic[] {
  if (!level || level.missing < smallest) return [];
  const lowered = isBrought ? "every part, or the cue's reference-level," : 'every part';
  return [
    diagnostic(
      'no-headroom',
      place,
      `${name} would have to be ${level.missing.toFixed(1)} dB louder than controller ${level.controller} can say`,
      `lower ${lowered} by ${level.missing.toFixed(1)} dB, and the balance is right`,
    ),
  ];
}

/** A controller cannot say a level or a seat where the map has it say something else. */
function controllerTaken(
  { name, place, map }: Voice,
  what: 'level' | 'seat',
  controller: number,
): readonly Diagnostic[] {
  const isSwitch = switchesWith(map, controller);
  if (!isSwitch && map.dynamics?.controller !== controller) return [];
  return [
    diagnostic(
      'controller-taken',
      place,
      `the ${what} of ${name} would go to controller ${controller}, which its map uses to ${isSwitch ? 'switch' : 'shape loudness'}`,
      `give ${what}-controller another number, or take the ${what} out`,
    ),
  ];
}
