import {
  EventBuilder,
  type Events,
  metaType,
  metaTypes,
  newSong,
  partsOf,
  releaseVelocity,
  type Song,
  statusOf,
  type Track,
  tickOf,
} from '../midi/index.js';
import type { SketchNote } from './types.js';

/** A track to be written. */
export interface ArrangedTrack {
  readonly name: string;
  readonly notes: readonly Omit<SketchNote, 'part'>[];
}

/** General MIDI's percussion is no place for pitched parts. */
const percussionChannel = 9;

/** What every track keeps to: markers, tempos, SMPTE offsets, metres and keys. */
const conducting: ReadonlySet<number> = new Set([
  metaTypes.marker,
  metaTypes.tempo,
  metaTypes.smpteOffset,
  metaTypes.timeSignature,
  metaTypes.keySignature,
]);

/**
 * A song of format 1: a track with the tempos, metres, keys and markers of another song, then the given tracks, each on
 * a channel of its own; from the sixteenth on they begin again. Ticks are those of the other song.
 */
export function arrangedSong(file: string, song: Song, tracks: readonly ArrangedTrack[]): Song {
  return newSong(file, song.division, [
    { name: '', events: conductorEvents(song) },
    ...tracks.map((track, index) => ({ name: track.name, events: noteEvents(track, channelOf(index)) })),
  ]);
}

/** The tracks that sound together: in format 2 each is a piece of its own, and the first is meant. */
export function tracksTogether({ format, tracks }: Song): readonly Track[] {
  return format === 2 ? tracks.slice(0, 1) : tracks;
}

/** The first track with notes, for places of which only the tick is known. */
export function firstSounding(song: Song): Track | undefined {
  return song.tracks.find((track) => partsOf(track).length > 0) ?? song.tracks[0];
}

function channelOf(index: number): number {
  const channel = index % 15;
  return channel >= percussionChannel ? channel + 1 : channel;
}

function conductorEvents(song: Song): Events {
  const found = tracksTogether(song).flatMap(({ columns }) =>
    Array.from({ length: columns.length }, (_, event) => ({ columns, event })).filter(
      ({ event }) => statusOf(columns, event) === 0xff && conducting.has(metaType(columns, event)),
    ),
  );
  const builder = new EventBuilder();
  const inOrder = found
    .map((one) => ({ ...one, tick: tickOf(one.columns, one.event) }))
    .sort((a, b) => a.tick - b.tick);
  for (const { tick, columns, event } of inOrder) builder.copy(tick, columns, event);
  builder.meta(inOrder.at(-1)?.tick ?? 0, metaTypes.endOfTrack, []);
  return builder.events();
}

/** Releases stand before note-ons of the same tick. */
function noteEvents({ name, notes }: ArrangedTrack, channel: number): Events {
  const builder = new EventBuilder();
  builder.meta(0, metaTypes.trackName, new TextEncoder().encode(name));
  const timed = notes
    .flatMap(({ tick, endTick, pitch, velocity }) => [
      { tick, status: 0x90, pitch, velocity },
      { tick: Math.max(endTick, tick + 1), status: 0x80, pitch, velocity: releaseVelocity },
    ])
    .sort((a, b) => a.tick - b.tick || a.status - b.status);
  for (const { tick, status, pitch, velocity } of timed)
    builder.message(tick, status | channel, pitch, velocity);
  builder.meta(timed.at(-1)?.tick ?? 0, metaTypes.endOfTrack, []);
  return builder.events();
}
