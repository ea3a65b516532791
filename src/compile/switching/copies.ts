import type { Track } from '../../midi/index.js';
import { type Insert, ranks } from './insertion.js';

const copied = new Set(['controller', 'pitchBend', 'channelAftertouch', 'noteAftertouch']);

/** Copies a part's controllers, pitch bends and pressure to the other channels that it uses, each behind its original. */
export function copyToChannels(track: Track, own: number, others: readonly number[], insert: Insert): void {
  if (others.length === 0) return;
  track.events.forEach((event, index) => {
    if (!copied.has(event.type) || !('channel' in event) || event.channel !== own) return;
    for (const channel of others)
      insert(index + 1, track.ticks[index] ?? 0, ranks.copy, { ...event, deltaTime: 0, channel });
  });
}
