import type { Song, Track } from '../midi/index.js';

/**
 * A song with some of its tracks changed, and tracks of its own behind them; the same song where there are none. What a
 * file has behind its last track, which may be bytes that are no chunk, stays at its end.
 */
export function withTracks(song: Song, changed: ReadonlyMap<number, Track>, added: readonly Track[]): Song {
  if (changed.size === 0 && added.length === 0) return song;
  const tracks = [...song.tracks.map((track) => changed.get(track.number) ?? track), ...added];
  if (added.length === 0) return { ...song, tracks };
  const chunks = added.map(({ number }) => ({ kind: 'track' as const, track: number }));
  const behindTracks = song.chunks.findLastIndex(({ kind }) => kind === 'track') + 1;
  const format = song.format === 0 ? 1 : song.format;
  return {
    ...song,
    format,
    header: headerWith(song.header, format, tracks.length),
    tracks,
    chunks: song.chunks.toSpliced(behindTracks, 0, ...chunks),
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
