import { Insertions, messageBytes, type Track, type TrackChange, withChannels } from '../../midi/index.js';
import type { Insertion } from './insertion.js';

/**
 * Puts insertions into a track, and notes on the channels that they were sent to. Every event of the track stays in
 * its order and on its tick.
 *
 * @param channels the new channel (0–15) of events, by index
 */
export function weave(
  track: Track,
  insertions: readonly Insertion[],
  channels: ReadonlyMap<number, number>,
): TrackChange {
  const columns = new Insertions();
  for (const { before, tick, rank, event } of insertions)
    columns.add(before, tick, rank, ...messageBytes(event));
  return { events: withChannels(track.columns, channels), insertions: columns };
}
