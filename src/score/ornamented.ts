import { type Outcome, withErrors } from '../diagnostics/index.js';
import { readMidi, type Song } from '../midi/index.js';
import { writePerformance } from './midi/index.js';
import { type Performance, playedOut } from './play/index.js';

/** A song that a score is played as. Its tracks have each ornament as one note with its mark. */
export interface WrittenSong extends Song {
  readonly performance: Performance;
}

/** A performance as the song that its MIDI file is. */
export function songOf(performance: Performance, file: string, maxEvents?: number): Outcome<Song> {
  const { value: midi, diagnostics } = writePerformance(performance, file);
  if (!midi) return { value: undefined, diagnostics };
  const most = { maxBytes: Number.POSITIVE_INFINITY, ...(maxEvents === undefined ? {} : { maxEvents }) };
  const { value: song, diagnostics: ofSong } = readMidi(midi, file, most);
  return withErrors(song, [...diagnostics, ...ofSong]);
}

/**
 * A song in which the ornaments of some tracks are played out as notes: those that stand for none of the sounds of the
 * track's library. A song that was not read from a score, or has no such ornaments, is the same song after.
 *
 * @param hasSound whether the library of a track (counted from 1) has a sound for a mark
 */
export function withOrnaments(song: Song, hasSound: (track: number, mark: string) => boolean): Song {
  if (!isWritten(song)) return song;
  const { performance } = song;
  // the first track is tempo and metre
  const tracks = new Map(performance.parts.map((part, index) => [part, index + 2]));
  const played = playedOut(performance, (part, mark) => hasSound(tracks.get(part) ?? 0, mark));
  if (played.parts.every((part, index) => part === performance.parts[index])) return song;
  return songOf(played, song.file, Number.POSITIVE_INFINITY).value ?? song;
}

function isWritten(song: Song): song is WrittenSong {
  return 'performance' in song;
}
