import { partsOf } from '../compile/index.js';
import { escapeText, nearest, quoted } from '../diagnostics/index.js';
import type { Part, Song, Track } from '../midi/index.js';
import { UsageError } from './io.js';

/** The track that a name or a number means: its name first, then its place in the file, counted from 1. */
export function findTrack(song: Song, wanted: string): Track | undefined {
  const named = song.tracks.filter((track) => track.name === wanted);
  const [only] = named;
  if (named.length > 1) {
    const numbers = named.map((track) => track.number).join(', ');
    throw new UsageError(`several tracks are named ${quoted(wanted)}: say which by its number (${numbers})`);
  }
  return only ?? (/^\d{1,6}$/u.test(wanted) ? song.tracks[Number(wanted) - 1] : undefined);
}

/** The parts of the named track. Throws a UsageError with the nearest name, or the list, where there is none. */
export function partsOfNamed(song: Song, wanted: string, channel: number | undefined): readonly Part[] {
  const track = findTrack(song, wanted);
  if (!track) {
    const near = nearest(
      wanted,
      song.tracks.map(({ name }) => name).filter((name) => name !== ''),
    );
    const hint = near === undefined ? undefined : `did you mean ${quoted(near)}?`;
    throw new UsageError(`there is no track ${quoted(wanted)}\n${listTracks(song)}`, hint);
  }
  return onChannel(track, channel);
}

/** What says which notes of a song are meant. */
export interface TrackChoice {
  readonly track: readonly string[];
  /** 1–16. */
  readonly channel?: number;
}

/** The parts that are named; those that are taken where no track is. */
export function partsChosen(
  song: Song,
  { track, channel }: TrackChoice,
  otherwise: (song: Song, channel: number | undefined) => readonly Part[],
): readonly Part[] {
  if (track.length === 0) return otherwise(song, channel);
  return track.flatMap((name) => partsOfNamed(song, name, channel));
}

/** The parts of the only track with notes. Throws a UsageError that lists the tracks where there are several. */
export function partsOfOnlyTrack(song: Song, channel: number | undefined): readonly Part[] {
  const withNotes = song.tracks.filter((track) => partsOf(track).length > 0);
  if (withNotes.length > 1)
    throw new UsageError(
      `several tracks have notes: say which with --track NAME or --track NUMBER\n${listTracks(song)}`,
    );
  return withNotes.flatMap((track) => onChannel(track, channel));
}

/** Every part of the song, or those on a channel. */
export function partsOfEvery(song: Song, channel: number | undefined): readonly Part[] {
  return song.tracks.flatMap(partsOf).filter((part) => channel === undefined || part.channel === channel - 1);
}

function onChannel(track: Track, channel: number | undefined): readonly Part[] {
  const parts = partsOf(track);
  if (channel === undefined) return parts;
  const chosen = parts.filter((part) => part.channel === channel - 1);
  if (chosen.length > 0) return chosen;
  const channels = parts.map((part) => part.channel + 1).join(', ') || 'none';
  throw new UsageError(
    `track ${track.number} has no notes on channel ${channel}; it has notes on: ${channels}`,
  );
}

/** The tracks of a song, a line each. */
export function listTracks(song: Song): string {
  return song.tracks
    .map((track) => {
      const channels = partsOf(track).map((part) => part.channel + 1);
      const notes = channels.length === 0 ? 'no notes' : `channel ${channels.join(', ')}`;
      return `  ${track.number}  ${track.name === '' ? '(no name)' : `"${escapeText(track.name)}"`}  ${notes}`;
    })
    .join('\n');
}
