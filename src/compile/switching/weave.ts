import {
  Insertions,
  messageBytes,
  type Track,
  type TrackChange,
  withChannels,
  withFirstData,
  withSecondData,
} from '../../midi/index.js';
import type { Insertion } from './insertion.js';

/** What events of a track become, by index: their channels (0–15), the pitches and the velocities of notes. */
export interface SentEvents {
  readonly channels: ReadonlyMap<number, number>;
  readonly pitches: ReadonlyMap<number, number>;
  readonly velocities: ReadonlyMap<number, number>;
}

/**
 * Puts insertions into a track, and notes on the channels and keys that they are sent to. Every event of the track
 * stays in its order and on its tick.
 */
export function weave(
  track: Track,
  insertions: readonly Insertion[],
  { channels, pitches, velocities }: SentEvents,
): TrackChange {
  const columns = new Insertions();
  for (const { before, tick, rank, event } of insertions)
    columns.add(before, tick, rank, ...messageBytes(event));
  const events = withSecondData(withFirstData(track.columns, pitches), velocities);
  return { events: withChannels(events, channels), insertions: columns };
}
