import type { ArticulationMap } from '../map/index.js';
import {
  channelOf,
  type Events,
  firstData,
  isChannelMessage,
  isNoteOn,
  kindOf,
  type Message,
  messageBytes,
  messageKind,
  messageOf,
  secondData,
  statusOf,
  withMessages,
} from '../midi/index.js';
import type { Sound } from './library.js';
import { isNote, pairsOf } from './pairs.js';
import type { Stage } from './part.js';

/** The key on which a library is sent a written pitch: the sound's own, else the pitch, moved as the map says. */
export function sentKey({ transpose }: ArticulationMap, sound: Sound | undefined, pitch: number): number {
  return sound?.key ?? keyBeside(pitch, transpose);
}

function keyBeside(pitch: number, semitones: number): number {
  const key = pitch + semitones;
  return key < 0 || key > 127 ? pitch : key;
}

/** The velocity that a played one becomes: 1–127 go evenly into the range that picks the sound. */
export function sentVelocity(sound: Sound | undefined, played: number): number {
  if (!sound?.velocities) return played;
  const [least, most] = sound.velocities;
  // The nearest whole number, halves upwards.
  return least + Math.floor((2 * (played - 1) * (most - least) + 126) / 252);
}

/** The key on which each meant note arrives. */
export function sentKeys({ meant, map, sounds }: Pick<Stage, 'meant' | 'map' | 'sounds'>): Uint8Array {
  const keys = new Uint8Array(meant.length);
  for (let note = 0; note < keys.length; note++)
    keys[note] = sentKey(map, sounds[meant.articulation(note)], meant.pitch(note));
  return keys;
}

/**
 * The music of a track as it is to be sent: notes on their keys and with their velocities, each release on the key of the
 * earliest open note of its pitch, pressure on the key of the latest note of its pitch; what belongs to no note moved as
 * the map says. Every event keeps its index.
 */
export function musicAsSent(events: Events, stages: readonly Stage[]): Events {
  const senders = new Map(
    stages
      .filter(({ map }) => sendsOtherwise(map))
      .map((stage) => [stage.part.channel, new Sender(events, stage)]),
  );
  if (senders.size === 0) return events;
  return withMessages(events, (event) =>
    isChannelMessage(events, event) ? senders.get(channelOf(events, event))?.send(event) : undefined,
  );
}

function sendsOtherwise({ transpose, articulations }: ArticulationMap): boolean {
  return (
    transpose !== 0 ||
    [...articulations.values()].some(({ key, velocity }) => key !== undefined || velocity !== undefined)
  );
}

/** Sends the events of a part's channel, one after another. */
class Sender {
  readonly #events: Events;
  readonly #stage: Stage;
  readonly #partner: Int32Array;
  /** The key that each note-on was sent to, and of each pitch the last of them. */
  readonly #keys: Uint8Array;
  readonly #latest = new Map<number, number>();
  #ordinal = 0;

  constructor(events: Events, stage: Stage) {
    this.#events = events;
    this.#stage = stage;
    this.#partner = pairsOf(events, (event) => channelOf(events, event) === stage.part.channel).partner;
    this.#keys = new Uint8Array(events.length);
  }

  /** What is sent in the place of an event; undefined where it is sent as it is. */
  send(event: number): Message | undefined {
    const status = statusOf(this.#events, event);
    const pitch = firstData(this.#events, event);
    const value = secondData(this.#events, event);
    const { map, meant, sounds } = this.#stage;
    const beside = () => sentKey(map, undefined, pitch);
    if (kindOf(this.#events, event) === 0xa0)
      return messageOf(status, this.#latest.get(pitch) ?? beside(), value);
    if (!isNote(this.#events, event)) return undefined;
    if (!isNoteOn(this.#events, event)) {
      const on = this.#partner[event] ?? -1;
      return messageOf(status, on < 0 ? beside() : (this.#keys[on] ?? 0), value);
    }
    const note = this.#ordinal++;
    const sound = note < meant.length ? sounds[meant.articulation(note)] : undefined;
    const key = sentKey(map, sound, pitch);
    this.#keys[event] = key;
    this.#latest.set(pitch, key);
    return messageOf(status, key, sentVelocity(sound, value));
  }
}

/**
 * Tells what notes of a compiled file were when they were written, as far as the file tells: moved back, unless they
 * stand on a sound's own key, and with the velocity that was laid into the range of the only sound that it can be.
 *
 * @param channel the channel (0–15) that they come back to
 * @returns asked for a note-on or its release; each answer is kept
 */
export function unsentNotes(map: ArticulationMap, channel: number): (note: Message) => Message {
  const known = new Map<Message, Message>();
  return (note) => {
    const before = known.get(note);
    if (before !== undefined) return before;
    const found = unsentNote(note, channel, map);
    known.set(note, found);
    return found;
  };
}

function unsentNote(note: Message, channel: number, map: ArticulationMap): Message {
  const [, key, velocity] = messageBytes(note);
  const all = [...map.articulations.values()];
  const isOwnKey = all.some((articulation) => articulation.key === key);
  const pitch = isOwnKey ? key : keyBeside(key, -map.transpose);
  const back = messageKind(note) | channel;
  if (messageKind(note) === 0x80 || velocity === 0) return messageOf(back, pitch, velocity);
  const possible = all.filter(
    ({ key: its, velocity: { into: [least, most] = [1, 127] } = {} }) =>
      (isOwnKey ? its === key : its === undefined) && velocity >= least && velocity <= most,
  );
  const [least, most] = (possible.length === 1 ? possible[0]?.velocity?.into : undefined) ?? [1, 127];
  const share = most === least ? 0.5 : (velocity - least) / (most - least);
  return messageOf(back, pitch, Math.round(1 + share * 126));
}
