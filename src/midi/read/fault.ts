import { behindQuantity } from '../events/index.js';
import { errorAt, hex, type Problem } from './problem.js';

/** An event that is not whole or not well formed: the track's bytes, where it begins, and what was in force before it. */
export interface Faulty {
  /** The body of the track. */
  readonly bytes: Uint8Array;
  /** Where the body stands in the file. */
  readonly offset: number;
  /** Where the event begins in the body. */
  readonly begin: number;
  /** The status byte in force; 0 before the first. */
  readonly status: number;
}

/** What is wrong with an event, at the byte of the file where it is. */
export function faultOf(faulty: Faulty): Problem {
  const { bytes, begin } = faulty;
  const at = behindQuantity(bytes, begin, bytes.length);
  if (at < 0) return tooLong(faulty.offset + begin);
  if (at >= bytes.length) return cut(faulty);
  const byte = bytes[at] ?? 0;
  if (byte < 0xf0) return channelFault(faulty, at, byte);
  if (byte === 0xff) return at + 1 >= bytes.length ? cut(faulty) : dataFault(faulty, at + 2);
  if (byte === 0xf0 || byte === 0xf7) return dataFault(faulty, at + 1);
  const hint =
    'a file has channel messages, system exclusive (0xF0, 0xF7) and meta events (0xFF); the file is damaged here';
  const message = `the status byte ${hex(byte)} has no meaning in a file`;
  return errorAt(faulty.offset + at, 'midi-event', message, hint);
}

function channelFault(faulty: Faulty, at: number, byte: number): Problem {
  const { bytes, offset } = faulty;
  const status = byte >= 0x80 ? byte : faulty.status;
  if (status === 0) {
    const message = `the data byte ${hex(byte)} stands where a status byte is needed`;
    const hint = 'the first channel message of a track names its status, 0x80 to 0xEF';
    return errorAt(offset + at, 'midi-event', message, hint);
  }
  const data = byte >= 0x80 ? at + 1 : at;
  const next = data + (status >= 0xc0 && status < 0xe0 ? 1 : 2);
  for (let index = data; index < next && index < bytes.length; index++)
    if ((bytes[index] ?? 0) >= 0x80) return noData(offset + index, bytes[index] ?? 0, status);
  return cut(faulty);
}

/** A length that is no length, or more of it than there is. */
function dataFault(faulty: Faulty, at: number): Problem {
  const isTooLong = behindQuantity(faulty.bytes, at, faulty.bytes.length) < 0;
  return isTooLong ? tooLong(faulty.offset + at) : cut(faulty);
}

function cut({ offset, begin }: Faulty): Problem {
  const hint =
    'the file was cut short, or the length of the event or of the track is wrong: copy or export the file again';
  const message = 'the track ends in the middle of the event that begins here';
  return errorAt(offset + begin, 'midi-truncated', message, hint);
}

function tooLong(offset: number): Problem {
  const hint =
    'times and lengths have at most four bytes, of which the last is below 0x80; the file is damaged here';
  return errorAt(offset, 'midi-event', 'a time or length of more than four bytes begins here', hint);
}

function noData(offset: number, byte: number, status: number): Problem {
  const message = `the byte ${hex(byte)} stands where the message ${hex(status)} has its data`;
  return errorAt(offset, 'midi-event', message, 'data bytes lie below 0x80; the file is damaged here');
}
