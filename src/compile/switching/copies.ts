import {
  channelOf,
  type Events,
  firstData,
  kindOf,
  messageOf,
  secondData,
  tickOf,
} from '../../midi/index.js';
import { type Insert, ranks } from './insertion.js';

/** Pressure on a key and on a channel, controllers, pitch bends. */
const copied: ReadonlySet<number> = new Set([0xa0, 0xb0, 0xd0, 0xe0]);

/**
 * Copies a part's controllers, pitch bends and pressure to the other channels that it uses, each behind its original.
 *
 * @param pitches the keys to which pressure on one key goes, by index, where they are others
 */
export function copyToChannels(
  events: Events,
  own: number,
  others: readonly number[],
  pitches: ReadonlyMap<number, number>,
  insert: Insert,
): void {
  if (others.length === 0) return;
  for (let event = 0; event < events.length; event++) {
    const kind = kindOf(events, event);
    if (!copied.has(kind) || channelOf(events, event) !== own) continue;
    const pitch = kind === 0xa0 ? pitches.get(event) : undefined;
    const one = pitch ?? firstData(events, event);
    for (const channel of others)
      insert(
        event + 1,
        tickOf(events, event),
        ranks.copy,
        messageOf(kind | channel, one, secondData(events, event)),
      );
  }
}
