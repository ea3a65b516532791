import { arranged, type Events, lastTick, tickOf, ticksUpTo } from '../events/index.js';
import { trackOf } from '../objects/index.js';
import type { Song, Track } from '../song.js';
import { noteTick, offOf, onOf } from './notes.js';
import { pairNotes } from './pair.js';
import { partsOf } from './parts.js';

/**
 * A song that has only the notes which are struck within a stretch; everything else is there as it was.
 *
 * @param isWithin whether a tick of a track (from 1) lies there
 */
export function notesWithin(song: Song, isWithin: (tick: number, track: number) => boolean): Song {
  return { ...song, tracks: song.tracks.map((track) => trackWithin(track, isWithin)) };
}

function trackWithin(track: Track, isWithin: (tick: number, track: number) => boolean): Track {
  const { columns, number, name } = track;
  const left = new Uint8Array(columns.length);
  for (const { channel } of partsOf(track)) {
    const { notes } = pairNotes(columns, channel);
    for (let note = 0; note < notes.length; note++) {
      if (isWithin(noteTick(notes, note), number)) continue;
      left[onOf(notes, note)] = 1;
      if (offOf(notes, note) >= 0) left[offOf(notes, note)] = 1;
    }
  }
  return left.includes(1) ? trackOf(number, name, without(columns, left)) : track;
}

function without(events: Events, left: Uint8Array): Events {
  const order = Uint32Array.from({ length: events.length }, (_, event) => event).filter(
    (event) => left[event] === 0,
  );
  const ticks = ticksUpTo(lastTick(events), order.length);
  order.forEach((event, at) => {
    ticks[at] = tickOf(events, event);
  });
  return arranged(events, order, ticks);
}
