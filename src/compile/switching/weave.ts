import {
  type Events,
  Insertions,
  type TrackChange,
  withChannels,
  withFirstData,
  withSecondData,
} from '../../midi/index.js';

/** What events of a track become, by index: their channels (0–15), the pitches and the velocities of notes. */
export interface SentEvents {
  readonly channels: ReadonlyMap<number, number>;
  readonly pitches: ReadonlyMap<number, number>;
  readonly velocities: ReadonlyMap<number, number>;
}

/** What a part puts into its track, and makes of its events. */
export interface Woven extends SentEvents {
  readonly insertions: Insertions;
}

/**
 * Puts what parts insert into their track, and their notes on the channels and keys that they are sent to. Every event of
 * the track stays in its order and on its tick.
 */
export function weave(events: Events, parts: readonly Woven[]): TrackChange {
  let sent = events;
  for (const { channels, pitches, velocities } of parts)
    sent = withChannels(withSecondData(withFirstData(sent, pitches), velocities), channels);
  const [only] = parts;
  return { events: sent, insertions: only && parts.length === 1 ? only.insertions : joined(parts) };
}

function joined(parts: readonly Woven[]): Insertions {
  const all = new Insertions();
  for (const { insertions } of parts) all.putAll(insertions);
  return all;
}
