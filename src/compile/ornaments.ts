import { type ArticulationMap, hasSoundFor } from '../map/index.js';
import type { Song } from '../midi/index.js';
import { withOrnaments } from '../score/index.js';

/**
 * Music that was read from a score, with the ornaments played out that the maps of its tracks have no sound for. A
 * trill that a library has recorded is one note with its mark. A recording, and a track that no map plays, is as it is.
 *
 * @param plays which map plays which track (from 1); of several for one track each must have the sound
 */
export function ornamented(
  song: Song,
  plays: readonly { readonly track: number; readonly map: ArticulationMap }[],
): Song {
  const maps = new Map<number, Set<ArticulationMap>>();
  for (const { track, map } of plays) maps.set(track, (maps.get(track) ?? new Set()).add(map));
  return withOrnaments(song, (track, mark) =>
    [...(maps.get(track) ?? [])].every((map) => hasSoundFor(map, mark)),
  );
}
