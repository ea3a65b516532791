import { metaTypes } from './meta.js';
import type { Ticks } from './ticks.js';

/**
 * The events of a track in columns, in their order. Nothing is decoded into objects: an event is its tick, its status
 * byte, and where its data lies among the track's bytes. A column is read through the functions below.
 */
export interface Events {
  /** The body of the track chunk; offsets count from its first byte. Must not be changed. */
  readonly bytes: Uint8Array;
  readonly length: number;
  readonly ticks: Ticks;
  /** 0x80–0xEF, 0xF0, 0xF7 or 0xFF. The one that is meant, where the bytes leave it out or say another. */
  readonly status: Uint8Array;
  /** The offset of the first data byte; of a meta event's type; of a system exclusive event's length. */
  readonly data: Uint32Array;
  /** The offset behind the event. */
  readonly end: Uint32Array;
}

export function tickOf({ ticks }: Events, event: number): number {
  return ticks[event] ?? 0;
}

export function statusOf({ status }: Events, event: number): number {
  return status[event] ?? 0;
}

export function dataOf({ data }: Events, event: number): number {
  return data[event] ?? 0;
}

export function endOf({ end }: Events, event: number): number {
  return end[event] ?? 0;
}

/** The tick of the last event; 0 where there is none. */
export function lastTick({ ticks, length }: Events): number {
  return ticks[length - 1] ?? 0;
}

/** What a channel message is: 0x80, 0x90 … 0xE0; 0xF0 for everything else. */
export function kindOf({ status }: Events, event: number): number {
  return (status[event] ?? 0) & 0xf0;
}

/** The channel (0–15) of a channel message. */
export function channelOf({ status }: Events, event: number): number {
  return (status[event] ?? 0) & 0x0f;
}

/** The first data byte of a channel message: a pitch, a controller, a program, the lower bits of a bend. */
export function firstData({ bytes, data }: Events, event: number): number {
  return bytes[data[event] ?? 0] ?? 0;
}

/** The second data byte of a channel message that has two: a velocity, a value. */
export function secondData({ bytes, data }: Events, event: number): number {
  return bytes[(data[event] ?? 0) + 1] ?? 0;
}

/** Whether the bytes leave the status out. What stands before the data is then the end of the event's time. */
export function isRunning({ bytes, data }: Events, event: number): boolean {
  return (bytes[(data[event] ?? 0) - 1] ?? 0) < 0x80;
}

/** Whether an event is a channel message: neither a meta nor a system exclusive event. */
export function isChannelMessage(events: Events, event: number): boolean {
  return statusOf(events, event) < 0xf0;
}

/** A note-on; one with velocity 0 is a release (MIDI 1.0). */
export function isNoteOn(events: Events, event: number): boolean {
  return kindOf(events, event) === 0x90 && secondData(events, event) !== 0;
}

/** A release: a note-off, or a note-on with velocity 0. */
export function isNoteOff(events: Events, event: number): boolean {
  const kind = kindOf(events, event);
  return kind === 0x80 || (kind === 0x90 && secondData(events, event) === 0);
}

/** The index of the first event with a status from an index on; −1 where there is none. */
export function nextStatus({ status }: Events, wanted: number, from: number): number {
  return status.indexOf(wanted, from);
}

/** The index of the first meta event from an index on; −1 where there is none. */
export function nextMeta(events: Events, from: number): number {
  return nextStatus(events, 0xff, from);
}

/** The type of a meta event (0x51: a tempo); −1 of everything else. */
export function metaType(events: Events, event: number): number {
  return statusOf(events, event) === 0xff ? firstData(events, event) : -1;
}

/** Whether an event is a well-formed end of track. */
export function isEndOfTrack(events: Events, event: number): boolean {
  return metaType(events, event) === metaTypes.endOfTrack && secondData(events, event) === 0;
}

/** The data behind the length of a meta or system exclusive event: a view. */
export function longData(events: Events, event: number): Uint8Array {
  const { bytes } = events;
  let at = dataOf(events, event) + (statusOf(events, event) === 0xff ? 1 : 0);
  while ((bytes[at] ?? 0) >= 0x80) at += 1;
  return bytes.subarray(at + 1, endOf(events, event));
}
