import type { Events } from './events/index.js';
import type { Division, Song } from './song.js';
import { trackOf } from './track.js';

/** A track of a new song: its name for messages, and its events, a track name among them. */
export interface NewTrack {
  readonly name: string;
  readonly events: Events;
}

/** A song of format 1 that is in no file yet; `writeMidi` makes one. */
export function newSong(file: string, division: Division, tracks: readonly NewTrack[]): Song {
  return {
    file,
    format: 1,
    division,
    header: headerOf(division, tracks.length),
    chunks: tracks.map((_, index) => ({ kind: 'track', track: index + 1 })),
    tracks: tracks.map(({ name, events }, index) => trackOf(index + 1, name, events)),
  };
}

function headerOf(division: Division, tracks: number): Uint8Array {
  const counted =
    division.kind === 'ppq' ? division.ppq : ((256 - division.framesPerSecond) << 8) | division.ticksPerFrame;
  const bytes = [0x4d, 0x54, 0x68, 0x64, 0, 0, 0, 6, 0, 1];
  return Uint8Array.from([...bytes, tracks >> 8, tracks & 0xff, counted >> 8, counted & 0xff]);
}
