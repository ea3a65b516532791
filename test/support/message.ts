import { type MidiEvent, parseMidi } from 'midi-file';
import { type Insertions, type Message, messageBytes, messageKind } from '../../src/midi/index.js';

/** A message as `midi-file` reads it. */
export function eventOf(message: Message): MidiEvent {
  const [status, one, two] = messageBytes(message);
  const isShort = messageKind(message) === 0xc0 || messageKind(message) === 0xd0;
  const body = [0, status, one, ...(isShort ? [] : [two])];
  const head = [0x4d, 0x54, 0x68, 0x64, 0, 0, 0, 6, 0, 0, 0, 1, 0, 96];
  const file = [...head, 0x4d, 0x54, 0x72, 0x6b, 0, 0, 0, body.length, ...body];
  const event = parseMidi(Uint8Array.from(file)).tracks[0]?.[0];
  if (!event) throw new Error('no event');
  return event;
}

/** What is put into a track, as objects, in the order in which it was put there. */
export function putIn(insertions: Insertions) {
  return Array.from({ length: insertions.length }, (_, at) => ({
    before: insertions.beforeOf(at),
    tick: insertions.tickOf(at),
    rank: insertions.rankOf(at),
    message: insertions.messageOf(at),
  }));
}
