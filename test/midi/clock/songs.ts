import { readMidi } from '../../../src/midi/read/index.js';
import type { Song } from '../../../src/midi/song.js';
import { big, endOfTrack, type FileParts, midi, quantity } from '../read/bytes.js';

/** A meta event on a tick. */
export interface Meta {
  readonly tick: number;
  readonly type: number;
  readonly data: readonly number[];
}

/** A tempo in microseconds to the quarter note. */
export function tempo(tick: number, microseconds: number): Meta {
  return { tick, type: 0x51, data: big(microseconds, 3) };
}

/** A time signature; the lower number is a power of two. */
export function signature(tick: number, upper: number, lower: number): Meta {
  return { tick, type: 0x58, data: [upper, Math.log2(lower), 24, 8] };
}

/** The body of a track of meta events. */
export function metaTrack(events: readonly Meta[]): number[] {
  let before = 0;
  const sorted = [...events].sort((a, b) => a.tick - b.tick);
  const body = sorted.flatMap(({ tick, type, data }) => {
    const delta = quantity(tick - before);
    before = tick;
    return [...delta, 0xff, type, ...quantity(data.length), ...data];
  });
  return [...body, ...endOfTrack];
}

/** A song with tracks of meta events. */
export function songWith(tracks: readonly (readonly Meta[])[], parts: FileParts = {}): Song {
  const { value, diagnostics } = readMidi(midi(tracks.map(metaTrack), parts), 'a.mid');
  if (!value) throw new Error(diagnostics.map(({ message }) => message).join('; '));
  return value;
}
