import type { Diagnostic } from '../diagnostics/index.js';
import type { ArticulationMap } from '../map/index.js';
import { channelOf, isNoteOn, type Song, type Track, tickOf } from '../midi/index.js';
import type { CommonLevel, WrittenLevel } from './common-level.js';
import { total } from './divide.js';
import type { Divided } from './divided.js';
import type { ChannelEdit } from './edit.js';
import type { CueJob, PlacedPart } from './plan.js';
import type { Played } from './played.js';
import type { Cue, CuePart } from './types.js';
import type { Voice } from './voice.js';

/** What a part of a cue comes to. */
export interface PartPlan {
  readonly jobs: readonly CueJob[];
  /** What becomes of the part's own track; absent where nothing does. */
  readonly edits: readonly { readonly track: number; readonly edit: ChannelEdit }[];
  readonly added: readonly Track[];
  readonly diagnostics: readonly Diagnostic[];
}

/** A part that is being worked out. */
export interface Planning {
  readonly song: Song;
  readonly cue: Cue;
  readonly maps: ReadonlyMap<string, ArticulationMap>;
  readonly placed: PlacedPart;
  /** By channel; only where layers or dynamics need them. */
  readonly playing: readonly Played[];
  /** By channel; only where the part is divided. */
  readonly divided: ReadonlyMap<number, Divided>;
  /** Where the part is heard, if the cue says so. */
  readonly heard?: number;
  /** What measured libraries are brought to. */
  readonly common?: CommonLevel;
}

/** The tick of the first note of a channel; 0 where there is none. */
export function firstNote({ columns }: Track, channel: number): number {
  for (let event = 0; event < columns.length; event++)
    if (isNoteOn(columns, event) && channelOf(columns, event) === channel) return tickOf(columns, event);
  return 0;
}

/**
 * How many players a part is to sound like in a library. A divided part is as many as its desks have, where the library
 * says how many were recorded.
 */
export function playersIn({ players, divide }: CuePart, map: ArticulationMap): number | undefined {
  if (!divide) return players;
  return map.players === undefined ? undefined : total(divide.players);
}

/** The fields that are there. */
export function given({
  written,
  ...fields
}: {
  readonly written: WrittenLevel | undefined;
  readonly players: number | undefined;
  readonly seatValue: number | undefined;
  readonly dynamics: Voice['dynamics'];
  readonly steps?: Voice['steps'];
}): Pick<Voice, 'level' | 'isBrought' | 'players' | 'seatValue' | 'dynamics' | 'steps'> {
  const all = { level: written?.level, isBrought: written?.isBrought, ...fields };
  return Object.fromEntries(Object.entries(all).filter(([, value]) => value !== undefined));
}
