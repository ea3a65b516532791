// A song becomes bytes of a Standard MIDI File.
import type { MidiEvent, Song } from '../song.js';
import { trackChunk } from './track.js';

export { longestDelta, trackChunk, UnwritableDelta } from './track.js';

/**
 * A song as a Standard MIDI File. The header and all chunks are copied as they were read; only changed tracks are
 * written anew. What a file says is kept, but not how it abbreviates it: a changed track may have other running status.
 *
 * @param changed the events of the tracks that change, by track number (from 1), each with its deltaTime
 * @throws UnwritableDelta where a delta time is no whole number from 0 to 0x0FFFFFFF. Putting events into a track that
 * was read only shortens its delta times, and cannot cause it.
 */
export function writeMidi(song: Song, changed: ReadonlyMap<number, readonly MidiEvent[]>): Uint8Array {
  const parts = [
    song.header,
    ...song.chunks.map((chunk) => {
      const events = chunk.kind === 'track' ? changed.get(chunk.track) : undefined;
      return chunk.kind === 'track' && events ? trackChunk(chunk.track, events) : chunk.bytes;
    }),
  ];
  const bytes = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
}
