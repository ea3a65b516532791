import type { MidiEvent } from 'midi-file';
import type { ArticulationMap } from '../../src/map/types.js';
import type { Events } from '../../src/midi/events/index.js';
import type { Song } from '../../src/midi/song.js';
import { MeantNotes, type Proof, prove } from '../../src/prove/index.js';
import type { ViolationKind } from '../../src/prove/violations.js';
import { mapOf } from '../support/map.js';
import { type SongOptions, songOf, type Timed } from '../support/song.js';

const timed = (tick: number, event: object & { readonly type: MidiEvent['type'] }): Timed => ({
  tick,
  event,
});

/** A note-on; channels are 0–15. */
export const on = (tick: number, noteNumber: number, velocity = 80, channel = 0): Timed =>
  timed(tick, { type: 'noteOn', channel, noteNumber, velocity } as Timed['event']);

export const off = (tick: number, noteNumber: number, channel = 0): Timed =>
  timed(tick, { type: 'noteOff', channel, noteNumber, velocity: 64 } as Timed['event']);

export const cc = (tick: number, controllerType: number, value: number, channel = 0): Timed =>
  timed(tick, { type: 'controller', channel, controllerType, value } as Timed['event']);

export const program = (tick: number, programNumber: number, channel = 0): Timed =>
  timed(tick, { type: 'programChange', channel, programNumber } as Timed['event']);

export const bend = (tick: number, value: number, channel = 0): Timed =>
  timed(tick, { type: 'pitchBend', channel, value } as Timed['event']);

/** A note: its on and its off. */
export const note = (tick: number, end: number, pitch: number, channel = 0): Timed[] => [
  on(tick, pitch, 80, channel),
  off(end, pitch, channel),
];

/** A tap of a switch key with the usual velocity, as long as the usual tap: 30 ms. */
export const tap = (tick: number, key: number, channel = 0, end = tick + 30): Timed[] => [
  on(tick, key, 100, channel),
  off(end, key, channel),
];

/** A tick is a millisecond: 500 ticks to a quarter note at 120 bpm. A bar of 4/4 has 2000. */
const msTicks: SongOptions = { ppq: 500, format: 0 };

/** One track with events in order of tick; those of one tick stay in the order in which they are given. */
export function fileOf(events: readonly Timed[], options: SongOptions = msTicks): Song {
  const sorted = [...events].sort((a, b) => a.tick - b.tick);
  const end = timed(sorted.at(-1)?.tick ?? 0, { type: 'endOfTrack', meta: true } as Timed['event']);
  let before = 0;
  const track = [...sorted, end].map(({ tick, event }) => {
    const deltaTime = tick - before;
    before = tick;
    return { ...event, deltaTime } as MidiEvent;
  });
  return songOf([track], options);
}

/** The same events in columns. */
export function columnsOf(events: readonly Timed[]): Events {
  const [track] = fileOf(events).tracks;
  if (!track) throw new Error('no track');
  return track.columns;
}

/** A meant note: its tick, its pitch, and the name of an articulation. */
export type Meant = readonly [tick: number, pitch: number, articulation: string];

export const meantNotes = (meant: readonly Meant[]): MeantNotes =>
  MeantNotes.of(meant.map(([tick, pitch, articulation]) => ({ tick, pitch, articulation })));

export interface Scene {
  readonly map: ArticulationMap;
  readonly meant: readonly Meant[];
  readonly output: readonly Timed[];
  readonly input?: readonly Timed[];
  /** The part's own channel; 0 where it is not given. */
  readonly channel?: number;
  readonly isAsPlayed?: boolean;
}

export function proofOf({ map, meant, output, input, channel = 0, isAsPlayed = false }: Scene): Proof {
  return prove({
    output: fileOf(output),
    ...(input ? { input: fileOf(input) } : {}),
    parts: [{ part: { track: 1, trackName: '', channel }, map, meant: meantNotes(meant), isAsPlayed }],
  });
}

/** What kinds of things are wrong, in order of time. */
export const kindsOf = (scene: Scene): readonly ViolationKind[] =>
  proofOf(scene).violations.map(({ kind }) => kind);

/** A map with these articulations; rules do not matter here. Notes are C2 to C8, switch keys below. */
export const library = (articulations: readonly string[], switching = '{}', more = ''): ArticulationMap =>
  mapOf(
    `${more}\nswitching: ${switching}\narticulations:\n${articulations.map((one) => `  ${one}\n`).join('')}rules:\n  - use: ${articulations[0]?.split(':')[0]}\n`,
  );
