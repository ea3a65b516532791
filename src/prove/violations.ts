import { plural, spellPitch } from '../diagnostics/index.js';
import { beatAt, type Clock, channelOf, type Events, firstData, tickOf } from '../midi/index.js';

/** What can be wrong with a compiled file, each with what it means. */
export const violationKinds = {
  // what sounds
  'wrong-articulation': 'A note does not sound with the articulation that is meant.',
  'hidden-articulation':
    'What a note needs is set, but so is all that a more particular articulation needs, which sounds instead.',
  // switches and melody
  'heard-switch': 'A switch note would be heard as melody.',
  'acting-note': 'A note of the music acts as a switch.',
  'touched-note': 'A switch reaches a note that already sounds, or was struck before.',
  'other-switch':
    'A switch that its note does not ask for, or that is sent twice, out of its order, or without its bank.',
  'missing-restate': 'A switch that the map says to send again was not sent again.',
  'hanging-key': 'A switch key is not released before it is struck again, or never.',
  'long-key': 'A switch key is held longer than it should be.',
  'release-without-key': 'A release of a switch key that was not struck.',
  'switch-velocity': 'A switch note has another velocity than the map says.',
  // the music itself
  'missing-event': 'Something of the music is not there any more.',
  'added-event': 'Something was added that is no switch.',
  'moved-event': 'Something of the music stands at another time.',
  'changed-event': 'Something of the music is not what it was.',
  'missing-copy': 'A controller, bend or pressure did not go to every channel that the part uses.',
  'changed-file': 'The file as a whole is not what it was: format, time division, tracks, or other chunks.',
} as const;

export type ViolationKind = keyof typeof violationKinds;

/** One thing that is wrong, and where. */
export interface Violation {
  readonly kind: ViolationKind;
  /** One sentence. May contain text from a file; escaped only when it is shown. */
  readonly message: string;
  /** Counted from 1; null where the file as a whole is meant. */
  readonly track: number | null;
  /** 0–15; null where no channel is concerned. */
  readonly channel: number | null;
  /** From the start of the file. */
  readonly tick: number;
  /** From 1; null where the file has no bars. */
  readonly bar: number | null;
  readonly beat: number | null;
  /** The MIDI note concerned; null where there is none. */
  readonly pitch: number | null;
}

/** A place in a track, and the key concerned. */
export interface Spot {
  readonly tick: number;
  readonly channel?: number | undefined;
  readonly pitch?: number | undefined;
}

/** The place and the key of a note-on or a release. */
export function noteSpot(events: Events, event: number): Spot {
  return {
    tick: tickOf(events, event),
    channel: channelOf(events, event),
    pitch: firstData(events, event),
  };
}

/** Makes the violations of one track. */
export type Complain = (kind: ViolationKind, spot: Spot, message: string) => Violation;

export function complainer(track: number, clock: Clock): Complain {
  return (kind, { tick, channel, pitch }, message) => {
    const position = beatAt(clock, tick);
    return {
      kind,
      message,
      track,
      channel: channel ?? null,
      tick,
      bar: position?.bar ?? null,
      beat: position?.beat ?? null,
      pitch: pitch ?? null,
    };
  };
}

/** In order of time, then of track; what is equal in both keeps its order. */
export function inOrderOfTime(violations: readonly Violation[]): readonly Violation[] {
  return [...violations].sort((a, b) => a.tick - b.tick || (a.track ?? 0) - (b.track ?? 0));
}

/** A number of ticks in a message. */
export function ticksText(count: number): string {
  return plural(count, 'tick');
}

/** A key in a message: `C4 (60)`, since manuals differ in their octaves. */
export function keyName(key: number, middleC: 3 | 4 | 5): string {
  return `${spellPitch(key, middleC)} (${key})`;
}
