import {
  channelOf,
  type Events,
  isChannelMessage,
  longData,
  messageAt,
  metaType,
  statusOf,
} from '../../midi/index.js';
import { isNote } from '../pairs.js';

/** One number for all channels (0–15) on which the notes of one part may stand. */
export type NoteChannel = (channel: number) => number;

/**
 * Whether two events say the same: their status and data bytes. Their time, whether the file leaves out their status,
 * and how it spells the lengths of data do not count; whether a release was written as a note-on does.
 */
export function isSame(
  a: Events,
  eventA: number,
  b: Events,
  eventB: number,
  noteChannel: NoteChannel,
): boolean {
  const isMessage = isChannelMessage(a, eventA);
  if (isMessage !== isChannelMessage(b, eventB)) return false;
  return isMessage
    ? said(a, eventA, noteChannel) === said(b, eventB, noteChannel)
    : isSameLong(a, eventA, b, eventB);
}

/** What a channel message says, as one number; those of notes on the channel of their part. */
function said(events: Events, event: number, noteChannel: NoteChannel): number {
  const message = messageAt(events, event);
  if (!isNote(events, event)) return message;
  return (message & 0xf0ffff) | (noteChannel(channelOf(events, event)) << 16);
}

/** Whether two meta or system exclusive events say the same. */
function isSameLong(a: Events, eventA: number, b: Events, eventB: number): boolean {
  if (statusOf(a, eventA) !== statusOf(b, eventB) || metaType(a, eventA) !== metaType(b, eventB))
    return false;
  const one = longData(a, eventA);
  const other = longData(b, eventB);
  return one.length === other.length && one.every((byte, at) => byte === other[at]);
}

/** Identities above those of channel messages, whose status is less. */
const firstLong = 0xf00000;

/**
 * Gives events numbers, equal where they say the same. That of a channel message is the message itself; others are
 * numbered as they come, and looked for by a hash of their bytes.
 */
export class Identities {
  readonly #noteChannel: NoteChannel;
  /** By hash, one of each of those that were numbered. */
  readonly #known = new Map<number, { events: Events; event: number; identity: number }[]>();
  #next = firstLong;

  constructor(noteChannel: NoteChannel) {
    this.#noteChannel = noteChannel;
  }

  of(events: Events, event: number): number {
    if (isChannelMessage(events, event)) return said(events, event, this.#noteChannel);
    const hash = hashOf(events, event);
    const alike = this.#known.get(hash) ?? [];
    this.#known.set(hash, alike);
    const known = alike.find((other) => isSameLong(events, event, other.events, other.event));
    if (known) return known.identity;
    const identity = this.#next++;
    alike.push({ events, event, identity });
    return identity;
  }
}

/** FNV-1a, 32 bits, of a meta or system exclusive event. */
function hashOf(events: Events, event: number): number {
  let hash = Math.imul(0x811c9dc5 ^ statusOf(events, event) ^ (metaType(events, event) << 8), 0x01000193);
  for (const byte of longData(events, event)) hash = Math.imul(hash ^ byte, 0x01000193);
  return hash;
}
