import { type Events, firstData, secondData, statusOf } from './events.js';

/** A channel message in one number, 0xSSAABB: its status, and its data bytes (the second 0 where its kind has none). */
export type Message = number;

/** @param two counts only where the kind of message has a second data byte */
export function messageOf(status: number, one: number, two = 0): Message {
  return (status << 16) | (one << 8) | (status >= 0xc0 && status < 0xe0 ? 0 : two);
}

/** The message that an event is; only of channel messages. */
export function messageAt(events: Events, event: number): Message {
  return messageOf(statusOf(events, event), firstData(events, event), secondData(events, event));
}

/** What kind it is: 0x80, 0x90 … 0xE0. */
export function messageKind(message: Message): number {
  return (message >> 16) & 0xf0;
}

/** Status and data bytes. */
export function messageBytes(message: Message): readonly [status: number, one: number, two: number] {
  return [message >> 16, (message >> 8) & 0xff, message & 0xff];
}

/** The velocity of a release of which none was measured (MIDI 1.0). */
export const releaseVelocity = 64;

/** @param channel 0–15, as in all that follow */
export function noteOn(channel: number, key: number, velocity: number): Message {
  return messageOf(0x90 | channel, key, velocity);
}

export function noteOff(channel: number, key: number, velocity: number): Message {
  return messageOf(0x80 | channel, key, velocity);
}

export function controllerMessage(channel: number, controller: number, value: number): Message {
  return messageOf(0xb0 | channel, controller, value);
}

export function programMessage(channel: number, program: number): Message {
  return messageOf(0xc0 | channel, program);
}
