import type { MessageEvent, MidiEvent, Track } from '../../midi/index.js';
import { type Insert, ranks } from './insertion.js';

/** Copies a part's controllers, pitch bends and pressure to the other channels that it uses, each behind its original. */
export function copyToChannels(track: Track, own: number, others: readonly number[], insert: Insert): void {
  if (others.length === 0) return;
  track.events.forEach((event, index) => {
    if (!isCopied(event) || event.channel !== own) return;
    for (const channel of others)
      insert(index + 1, track.ticks[index] ?? 0, ranks.copy, { ...event, deltaTime: 0, channel });
  });
}

function isCopied(event: MidiEvent): event is MessageEvent {
  const { type } = event;
  return (
    type === 'controller' || type === 'pitchBend' || type === 'channelAftertouch' || type === 'noteAftertouch'
  );
}
