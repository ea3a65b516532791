import type { Job } from '../compile/index.js';
import { hasRoutes } from '../map/index.js';
import type { Song } from '../midi/index.js';
import { ownChannel, stripSwitches } from '../prove/index.js';

/** A compiled song and its jobs with the maps' switches taken out, to decide anew what is meant. */
export function withoutSwitches({ song, jobs }: { readonly song: Song; readonly jobs: readonly Job[] }): {
  readonly song: Song;
  readonly jobs: readonly Job[];
} {
  let music = song;
  const own = new Map<string, Job>();
  for (const { part, map } of jobs) {
    const track = music.tracks[part.track - 1];
    const channel = hasRoutes(map) && track ? ownChannel(track, map) : undefined;
    const moved = { ...part, channel: channel ?? part.channel };
    const key = `${moved.track} ${moved.channel}`;
    if (own.has(key)) continue;
    own.set(key, { part: moved, map });
    const without = stripSwitches(music, moved, map);
    if (without)
      music = {
        ...music,
        tracks: music.tracks.map((one) => (one.number === without.number ? without : one)),
      };
  }
  return { song: music, jobs: [...own.values()] };
}
