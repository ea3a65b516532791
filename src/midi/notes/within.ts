import { withoutEvents } from '../events/index.js';
import type { Song, Track } from '../song.js';
import { trackOf } from '../track.js';
import { withTracks } from '../with-tracks.js';
import { noteTick, offOf, onOf } from './notes.js';
import { pairNotes } from './pair.js';
import { partsOf } from './parts.js';

/**
 * A song that has only the notes which are struck within a stretch; everything else is there as it was.
 *
 * @param isWithin whether a tick of a track (from 1) lies there
 */
export function notesWithin(song: Song, isWithin: (tick: number, track: number) => boolean): Song {
  const changed = song.tracks.flatMap((track) => {
    const left = notesOutside(track, (tick) => isWithin(tick, track.number));
    if (left.size === 0) return [];
    const { number, name, columns } = track;
    return [
      [
        number,
        trackOf(
          number,
          name,
          withoutEvents(columns, (event) => left.has(event)),
        ),
      ] as const,
    ];
  });
  return withTracks(song, new Map(changed));
}

/** The note-ons and releases of the notes that are struck elsewhere, by the indices of their events. */
function notesOutside(track: Track, isWithin: (tick: number) => boolean): ReadonlySet<number> {
  const outside = new Set<number>();
  for (const { channel } of partsOf(track)) {
    const { notes } = pairNotes(track.columns, channel);
    for (let note = 0; note < notes.length; note++) {
      if (isWithin(noteTick(notes, note))) continue;
      outside.add(onOf(notes, note));
      if (offOf(notes, note) >= 0) outside.add(offOf(notes, note));
    }
  }
  return outside;
}
