import { type MidiData, writeMidi } from 'midi-file';
import type { MidiEvent } from '../song.js';
import { type Sink, sink } from './sink.js';

/** The longest time between two events that a file can say: four bytes of seven bits (Standard MIDI File 1.0). */
export const longestDelta = 0x0fffffff;

/** An event that cannot be written: its delta time is no whole number from 0 to 0x0FFFFFFF. Nothing was written. */
export class UnwritableDelta extends Error {
  override readonly name = 'UnwritableDelta';
  constructor(
    /** Counted from 1 in file order. */
    readonly track: number,
    /** Index of the event in the track. */
    readonly event: number,
    readonly deltaTime: number,
  ) {
    super(
      `track ${track}, event ${event}: a file cannot say a time of ${deltaTime} ticks between two events`,
    );
  }
}

/**
 * `midi-file` copies all that it has written with every number above 127, so it is given few events at a time.
 * Measured on 400,000 events: 8 to 16 are fastest, 1 and 64 take three to four times as long.
 */
const blockSize = 12;

/** More data than this goes round `midi-file`, which would hold each byte several times as a number. */
const longData = 256;

/** MThd and the head of MTrk, as `midi-file` puts them before the events. */
const headLength = 22;
const header: MidiData['header'] = { format: 0, numTracks: 1, ticksPerBeat: 96 };

/**
 * The MTrk chunk of a track, its id and length included. Running status is kept within blocks of a few events, and
 * each block begins with a status byte.
 *
 * @param track counted from 1; for the error
 * @throws UnwritableDelta before anything is written
 */
export function trackChunk(track: number, events: readonly MidiEvent[]): Uint8Array {
  events.forEach(({ deltaTime }, event) => {
    const isWritable = Number.isInteger(deltaTime) && deltaTime >= 0 && deltaTime <= longestDelta;
    if (!isWritable) throw new UnwritableDelta(track, event, deltaTime);
  });
  const out = sink(8 + 5 * events.length);
  out.append([0x4d, 0x54, 0x72, 0x6b, 0, 0, 0, 0]);
  let block: MidiEvent[] = [];
  const flush = () => {
    if (block.length > 0) out.append(encoded(block), headLength);
    block = [];
  };
  for (const event of events) {
    if ('data' in event && event.data.length > longData) {
      flush();
      appendLong(out, event);
    } else if (block.push(event) === blockSize) flush();
  }
  flush();
  const bytes = out.bytes();
  new DataView(bytes.buffer, bytes.byteOffset).setUint32(4, bytes.length - 8);
  return bytes;
}

function encoded(events: MidiEvent[]): readonly number[] {
  return writeMidi({ header, tracks: [events] });
}

/** An event with much data: written with none, then its length put in place of the 0, and the data behind it. */
function appendLong(out: Sink, event: Extract<MidiEvent, { data: ArrayLike<number> }>): void {
  const empty = encoded([{ ...event, data: [] }]);
  out.append(empty.slice(0, -1), headLength);
  out.append(quantity(event.data.length));
  out.append(event.data);
}

/** A variable-length quantity: seven bits a byte, the most significant first, all but the last with bit 7 set. */
function quantity(value: number): readonly number[] {
  const bytes = [value & 0x7f];
  for (let rest = value >>> 7; rest > 0; rest >>>= 7) bytes.unshift((rest & 0x7f) | 0x80);
  return bytes;
}
