import { behindQuantity, type Events, GrowingEvents, quantity } from '../events/index.js';
import { faultOf } from './fault.js';
import type { Problem } from './problem.js';

/** A track, read. */
export interface EventsRead {
  readonly events: Events;
  /** How many events the track has; where there were too many, more than were kept. */
  readonly count: number;
  /** The first thing that is no MIDI; nothing behind it was looked at. */
  readonly fault: Problem | undefined;
}

/**
 * Reads the body of a track in one pass, and sees that each event is whole and well formed. A running status may last
 * across meta and system exclusive events: the standard ends it there, but files have it, and it means nothing else. A
 * missing end of track, and events behind one, are let pass.
 *
 * @param offset where the body stands in the file
 * @param most how many events are kept; those behind are only looked through
 */
export function readEvents(bytes: Uint8Array, offset: number, most: number): EventsRead {
  // Four or five bytes a note-on is common.
  const columns = new GrowingEvents(Math.min(bytes.length / 4, most));
  let count = 0;
  let at = 0;
  let tick = 0;
  let inForce = 0;
  while (at < bytes.length) {
    const behind = behindQuantity(bytes, at, bytes.length);
    const byte = behind < 0 ? 0xf1 : (bytes[behind] ?? 0xf1);
    const status = byte < 0x80 ? inForce : byte;
    const data = byte < 0x80 ? behind : behind + 1;
    const end = status < 0xf0 ? behindMessage(bytes, data, status) : behindLong(bytes, data, status);
    count += 1;
    if (end < 0) {
      const fault = faultOf({ bytes, offset, begin: at, status: inForce });
      return { events: columns.of(bytes), count, fault };
    }
    tick += quantity(bytes, at, behind);
    if (count <= most) columns.add(tick, status, data, end);
    if (status < 0xf0) inForce = status;
    at = end;
  }
  return { events: columns.of(bytes), count, fault: undefined };
}

/** The offset behind the data of a channel message; −1 where that is not whole. */
function behindMessage(bytes: Uint8Array, data: number, status: number): number {
  if (status === 0 || (bytes[data] ?? 0x80) >= 0x80) return -1;
  if (status >= 0xc0 && status < 0xe0) return data + 1;
  return (bytes[data + 1] ?? 0x80) >= 0x80 ? -1 : data + 2;
}

/** The offset behind a meta or system exclusive event; −1 where it is not whole, or is neither. */
function behindLong(bytes: Uint8Array, data: number, status: number): number {
  if (status !== 0xff && status !== 0xf0 && status !== 0xf7) return -1;
  const at = status === 0xff ? data + 1 : data;
  const behind = behindQuantity(bytes, at, bytes.length);
  if (behind < 0 || behind > bytes.length) return -1;
  const end = behind + quantity(bytes, at, behind);
  return end > bytes.length ? -1 : end;
}
