// A song becomes bytes of a Standard MIDI File.

import type { Diagnostic, Outcome } from '../../diagnostics/index.js';
import { clockOf } from '../clock/index.js';
import { EventBuilder, longestDelta } from '../events/index.js';
import { musicPlace } from '../location.js';
import type { Chunk, Song } from '../song.js';
import { type TrackChange, type TrackChunk, trackChunk, type UnwritableTime } from './track.js';

export { newFile } from './new-file.js';
export { type TrackChange, type TrackChunk, trackChunk, type UnwritableTime } from './track.js';

/**
 * A song as a Standard MIDI File. The header and all chunks are copied as they were read; of tracks that change, every
 * byte that still says what is meant.
 *
 * Its only error is midi-time: a time between two events that a file cannot say. Putting events into a track that was
 * read only shortens its times, and cannot cause it; moving events can.
 *
 * @param changed what becomes of tracks, by number (from 1)
 */
export function writeMidi(song: Song, changed: ReadonlyMap<number, TrackChange>): Outcome<Uint8Array> {
  const diagnostics: Diagnostic[] = [];
  const parts = [song.header];
  for (const chunk of song.chunks) {
    if (chunk.kind === 'other') {
      parts.push(chunk.bytes);
      continue;
    }
    const written = chunkOf(song, chunk, changed.get(chunk.track));
    if ('bytes' in written) parts.push(written.bytes);
    else diagnostics.push(timeProblem(song, chunk.track, written.unwritable));
  }
  return { value: diagnostics.length > 0 ? undefined : joined(parts), diagnostics };
}

/** What is told about a time that a file cannot say, in a track (from 1) of a song. */
export function timeProblem(song: Song, track: number, { tick, before }: UnwritableTime): Diagnostic {
  const part = { track, trackName: song.tracks[track - 1]?.name ?? '' };
  const where = { file: song.file, part, clock: clockOf(song, track) };
  const isBack = tick < before;
  return {
    code: 'midi-time',
    severity: 'error',
    place: musicPlace(where, before),
    message: isBack
      ? `an event would come to stand at tick ${tick}, ahead of the one before it at tick ${before}`
      : `${tick - before} ticks would pass before the next event`,
    hint: isBack
      ? 'this track cannot be moved so: compile it with less timing, or with none'
      : `a MIDI file can say at most ${longestDelta}: compile it with less timing, or shorten the rest`,
  };
}

function chunkOf(
  { tracks }: Song,
  { track, bytes }: Extract<Chunk, { readonly kind: 'track' }>,
  change: TrackChange | undefined,
): TrackChunk {
  if (change) return trackChunk(change);
  if (bytes) return { bytes };
  return trackChunk({ events: tracks[track - 1]?.columns ?? new EventBuilder().events() });
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const bytes = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
}
