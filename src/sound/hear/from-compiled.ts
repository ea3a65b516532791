import { articulationOf, bindSpeaksAfter, type CompiledPart } from '../../compile/index.js';
import type { Articulation, ArticulationMap } from '../../map/index.js';
import {
  type Clock,
  channelOf,
  type Duration,
  type Events,
  firstData,
  kindOf,
  noteEnd,
  noteTick,
  onOf,
  pitchOf,
  secondData,
  type Track,
  tickOf,
} from '../../midi/index.js';
import { programOfName } from './instrument.js';
import type { HearArticulation, HearClick, HearNote, HearPart, StandIn } from './types.js';

/** The channel of drum kits (General MIDI level 1), from 0. */
const kitChannel = 9;

const kinds = { controller: 0xb0, program: 0xc0, bend: 0xe0 } as const;

/**
 * A compiled part as it is to be heard: its notes where they stand now, each as late as its articulation speaks, and
 * what the part's track has of controllers and bends.
 *
 * @param track the part's track as it stands now, without switches
 */
export function compiledToHear(compiled: CompiledPart, name: string, track: Track): HearPart {
  const { line, retimed } = compiled;
  const { clock } = line;
  const late = lateness(compiled);
  const { decided } = retimed;
  const notes = Array.from({ length: decided.length }, (_, row): HearNote => {
    return {
      onsetMs: clock.ms(noteTick(decided, row)),
      endMs: clock.ms(noteEnd(decided, row)),
      pitch: pitchOf(decided, row),
      velocity: secondData(track.columns, onOf(decided, row)),
      articulation: articulationOf(decided, row),
      delayMs: late(row),
    };
  });
  return { ...partOf(compiled, name, track, clock), notes };
}

/** How long after each note stands now its library is heard to begin it, by the note's row. Unit: ms. */
export function lateness({ map, line, decided, retimed }: CompiledPart): (row: number) => number {
  const speaksAfter = bindSpeaksAfter(map, line);
  return (row) => {
    const spoken = { articulation: articulationOf(decided, row), note: decided.noteOf(row) };
    return msFrom(line.clock, noteTick(retimed.decided, row), speaksAfter(spoken));
  };
}

/** The same part as it was played: its notes where they were struck, and nothing of the map but what plays it. */
export function playedToHear(compiled: CompiledPart, name: string, track: Track): HearPart {
  const { clock, notes } = compiled.line;
  return {
    ...partOf(compiled, name, track, clock),
    notes: notes.map(({ tick, endTick, pitch, velocity }) => ({
      onsetMs: clock.ms(tick),
      endMs: clock.ms(endTick),
      pitch,
      velocity,
    })),
  };
}

/** The beats of a clock up to a tick; none where there are no bars. */
export function clicksUpTo(clock: Clock, lastTick: number): readonly HearClick[] {
  const clicks: HearClick[] = [];
  const last = clock.position(lastTick)?.bar ?? 0;
  for (let bar = 1; bar <= last; bar++) {
    const end = clock.barStart(bar + 1) ?? Number.POSITIVE_INFINITY;
    for (let beat = 1; ; beat++) {
      const tick = clock.barStart(bar, beat) ?? end;
      if (tick >= end || tick > lastTick) break;
      clicks.push({ ms: clock.ms(tick), isStrong: beat === 1 });
    }
  }
  return clicks;
}

function partOf(
  { map, part, line }: CompiledPart,
  name: string,
  { columns }: Track,
  clock: Clock,
): Omit<HearPart, 'notes'> {
  const own = eventsOn(columns, part.channel);
  const controllers = own
    .filter((event) => kindOf(columns, event) === kinds.controller)
    .map((event) => ({
      ms: clock.ms(tickOf(columns, event)),
      controller: firstData(columns, event),
      value: secondData(columns, event),
    }));
  const bends = own
    .filter((event) => kindOf(columns, event) === kinds.bend)
    .map((event) => ({
      ms: clock.ms(tickOf(columns, event)),
      value: firstData(columns, event) | (secondData(columns, event) << 7),
    }));
  const program = own.find((event) => kindOf(columns, event) === kinds.program);
  return {
    name,
    family: map.family,
    ...(program === undefined ? instrumentNamed(map) : { program: firstData(columns, program) }),
    isKit: part.channel === kitChannel || (map.family === 'percussion' && hasStrokes(map)),
    ...(map.players === undefined ? {} : { players: map.players }),
    articulations: [...map.articulations.values()].map(articulationToHear),
    ...(map.dynamics && line.notes.length > 0 && isPlayed(controllers, map.dynamics.controller)
      ? { dynamicsController: map.dynamics.controller }
      : {}),
    controllers,
    ...(bends.length === 0 ? {} : { bends }),
  };
}

/** A curve that is nowhere in the part would leave it as loud as it gets. */
function isPlayed(controllers: HearPart['controllers'], wanted: number): boolean {
  return controllers.some(({ controller }) => controller === wanted);
}

/** Percussion whose strokes lie on keys of their own is a kit; timpani are none. */
function hasStrokes({ articulations }: ArticulationMap): boolean {
  return [...articulations.values()].some(({ key }) => key !== undefined);
}

function instrumentNamed({ instrument }: ArticulationMap): Pick<HearPart, 'program'> {
  const program = programOfName(instrument);
  return program === undefined ? {} : { program };
}

function articulationToHear({ name, means, loudness, standIn, key }: Articulation): HearArticulation {
  const own = standIn && standInOf(standIn);
  const stroke: StandIn | undefined = key === undefined ? undefined : { key };
  const heard = own ?? stroke;
  return { name, means, loudness, ...(heard ? { standIn: heard } : {}) };
}

function standInOf({ program, key, length, velocity }: NonNullable<Articulation['standIn']>): StandIn {
  return {
    ...(program === undefined ? {} : { program }),
    ...(key === undefined ? {} : { key, isKit: program === undefined }),
    ...(velocity === undefined ? {} : { velocityScale: velocity }),
    ...(length === undefined ? {} : { length: lengthOf(length) }),
  };
}

/** A fraction is as long as it is at 120 quarters a minute: a stand-in has no place in the music. */
function lengthOf(length: number | Duration): NonNullable<StandIn['length']> {
  if (typeof length === 'number') return { share: length };
  return { mostMs: length.unit === 'ms' ? length.ms : (2000 * length.numerator) / length.denominator };
}

function eventsOn(columns: Events, channel: number): readonly number[] {
  const events: number[] = [];
  for (let event = 0; event < columns.length; event++)
    if (kindOf(columns, event) < 0xf0 && channelOf(columns, event) === channel) events.push(event);
  return events;
}

function msFrom(clock: Clock, tick: number, duration: Duration): number {
  if (duration.unit === 'ms') return duration.ms;
  const ticks = ((clock.ticksPerWhole ?? 0) * duration.numerator) / duration.denominator;
  return clock.ms(tick + ticks) - clock.ms(tick);
}
