import { isFaithful } from './faithful.js';
import { behindQuantity, quantity } from './numbers.js';
import { errorAt, hex, type Problem } from './problem.js';

/** A meta event of a track. */
export interface MetaEvent {
  /** Its index among the track's events. */
  readonly event: number;
  /** The byte of the file that holds its type. */
  readonly offset: number;
  readonly type: number;
}

/** A track, looked through. */
export interface Walk {
  /** How many events it has. */
  readonly events: number;
  /** Meta events that `midi-file` would not give back byte for byte. */
  readonly masked: readonly MetaEvent[];
  /** Tempos and time signatures. */
  readonly timing: readonly MetaEvent[];
  /** The first thing that is no MIDI; nothing behind it was looked at. */
  readonly fault: Problem | undefined;
}

interface Walker {
  at: number;
  /** The status byte in force; 0 before the first. */
  status: number;
  events: number;
  readonly masked: MetaEvent[];
  readonly timing: MetaEvent[];
  fault: Problem | undefined;
}

/**
 * Goes through the events between two offsets, and sees that each is whole and well formed. A running status may
 * last across meta and system exclusive events: the standard ends it there, but files have it, and it means nothing
 * else. A missing end of track, and events behind one, are let pass.
 */
export function walkTrack(bytes: Uint8Array, from: number, to: number): Walk {
  const walker: Walker = { at: from, status: 0, events: 0, masked: [], timing: [], fault: undefined };
  while (walker.at < to && walker.fault === undefined) {
    walker.fault = walkEvent(bytes, to, walker);
    walker.events += 1;
  }
  return walker;
}

function walkEvent(bytes: Uint8Array, end: number, walker: Walker): Problem | undefined {
  const begin = walker.at;
  const at = behindQuantity(bytes, begin, end);
  if (at < 0) return tooLong(begin);
  if (at >= end) return cut(begin);
  const byte = bytes[at] ?? 0;
  if (byte < 0xf0) return walkChannel(bytes, end, walker, at, byte);
  if (byte === 0xff) return walkMeta(bytes, end, walker, at);
  if (byte === 0xf0 || byte === 0xf7) return walkData(bytes, end, walker, at + 1);
  const hint =
    'a file has channel messages, system exclusive (0xF0, 0xF7) and meta events (0xFF); the file is damaged here';
  return errorAt(at, 'midi-event', `the status byte ${hex(byte)} has no meaning in a file`, hint);
}

function walkChannel(
  bytes: Uint8Array,
  end: number,
  walker: Walker,
  at: number,
  byte: number,
): Problem | undefined {
  const begin = walker.at;
  let data = at;
  if (byte >= 0x80) {
    walker.status = byte;
    data = at + 1;
  } else if (walker.status === 0) {
    const message = `the data byte ${hex(byte)} stands where a status byte is needed`;
    return errorAt(
      at,
      'midi-event',
      message,
      'the first channel message of a track names its status, 0x80 to 0xEF',
    );
  }
  const { status } = walker;
  const isShort = status >= 0xc0 && status < 0xe0;
  const next = isShort ? data + 1 : data + 2;
  for (let index = data; index < next && index < end; index++)
    if ((bytes[index] ?? 0) >= 0x80) return noData(bytes, index, status);
  if (next > end) return cut(begin);
  walker.at = next;
  return undefined;
}

function walkMeta(bytes: Uint8Array, end: number, walker: Walker, at: number): Problem | undefined {
  const begin = walker.at;
  const offset = at + 1;
  if (offset >= end) return cut(begin);
  const type = bytes[offset] ?? 0;
  const fault = walkData(bytes, end, walker, offset + 1);
  if (fault) return fault;
  const data = behindQuantity(bytes, offset + 1, end);
  const event: MetaEvent = { event: walker.events, offset, type };
  if (!isFaithful(bytes, type, data, walker.at - data)) walker.masked.push(event);
  if (type === 0x51 || type === 0x58) walker.timing.push(event);
  return undefined;
}

/** A length, and as many bytes. */
function walkData(bytes: Uint8Array, end: number, walker: Walker, at: number): Problem | undefined {
  const begin = walker.at;
  const data = behindQuantity(bytes, at, end);
  if (data < 0) return tooLong(at);
  if (data > end) return cut(begin);
  const next = data + quantity(bytes, at, data);
  if (next > end) return cut(begin);
  walker.at = next;
  return undefined;
}

function cut(offset: number): Problem {
  const hint =
    'the file was cut short, or the length of the event or of the track is wrong: copy or export the file again';
  return errorAt(
    offset,
    'midi-truncated',
    'the track ends in the middle of the event that begins here',
    hint,
  );
}

function tooLong(offset: number): Problem {
  const hint =
    'times and lengths have at most four bytes, of which the last is below 0x80; the file is damaged here';
  return errorAt(offset, 'midi-event', 'a time or length of more than four bytes begins here', hint);
}

function noData(bytes: Uint8Array, offset: number, status: number): Problem {
  const message = `the byte ${hex(bytes[offset] ?? 0)} stands where the message ${hex(status)} has its data`;
  return errorAt(offset, 'midi-event', message, 'data bytes lie below 0x80; the file is damaged here');
}
