import type { Track } from '../model/song.js';
import { type Insertion, ranks } from './insertion.js';

const copied = new Set(['controller', 'pitchBend', 'channelAftertouch', 'noteAftertouch']);

/** Copies a part's controllers, pitch bends and pressure to the other channels that it uses, each behind its original. */
export function copyToChannels(
  track: Track,
  own: number,
  others: readonly number[],
  insert: (insertion: Insertion) => void,
): void {
  if (others.length === 0) return;
  track.events.forEach((event, index) => {
    if (!copied.has(event.type) || !('channel' in event) || event.channel !== own) return;
    const { deltaTime: _, ...rest } = event;
    const at = { before: index + 1, tick: track.ticks[index] ?? 0, rank: ranks.copy };
    for (const channel of others) insert({ ...at, event: { ...rest, channel } });
  });
}
