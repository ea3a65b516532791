import type { Chunk, Song, Track } from './song.js';

/**
 * A song with other tracks in place of some, which are written anew, and tracks of its own behind them; the same song
 * where there are none. What a file has behind its last track, which may be bytes that are no chunk, stays at its end.
 *
 * @param changed by number
 * @param added numbered on from the song's own; a song of format 0 is of format 1 with them
 */
export function withTracks(
  song: Song,
  changed: ReadonlyMap<number, Track>,
  added: readonly Track[] = [],
): Song {
  if (changed.size === 0 && added.length === 0) return song;
  const tracks = [...song.tracks.map((track) => changed.get(track.number) ?? track), ...added];
  const chunks = song.chunks.map(
    (chunk): Chunk =>
      chunk.kind === 'track' && changed.has(chunk.track) ? { kind: 'track', track: chunk.track } : chunk,
  );
  if (added.length === 0) return { ...song, tracks, chunks };
  const format = song.format === 0 ? 1 : song.format;
  const behindTracks = chunks.findLastIndex(({ kind }) => kind === 'track') + 1;
  const own = added.map(({ number }): Chunk => ({ kind: 'track', track: number }));
  return {
    ...song,
    format,
    header: headerWith(song.header, format, tracks.length),
    tracks,
    chunks: chunks.toSpliced(behindTracks, 0, ...own),
  };
}

/** MThd: id and length (8 bytes), then format and number of tracks, two bytes each (Standard MIDI File 1.0). */
function headerWith(header: Uint8Array, format: number, tracks: number): Uint8Array {
  const changed = Uint8Array.from(header);
  const view = new DataView(changed.buffer, changed.byteOffset);
  view.setUint16(8, format);
  view.setUint16(10, tracks);
  return changed;
}
