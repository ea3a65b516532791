import type { MessageEvent, MidiEvent, Track } from '../../midi/index.js';
import { type Insert, ranks } from './insertion.js';

/**
 * Copies a part's controllers, pitch bends and pressure to the other channels that it uses, each behind its original.
 *
 * @param pitches the keys to which pressure on one key goes, by index, where they are others
 */
export function copyToChannels(
  track: Track,
  own: number,
  others: readonly number[],
  pitches: ReadonlyMap<number, number>,
  insert: Insert,
): void {
  if (others.length === 0) return;
  track.events.forEach((event, index) => {
    if (!isCopied(event) || event.channel !== own) return;
    const pitch = event.type === 'noteAftertouch' ? pitches.get(index) : undefined;
    const moved = pitch === undefined ? {} : { noteNumber: pitch };
    for (const channel of others)
      insert(index + 1, track.ticks[index] ?? 0, ranks.copy, {
        ...event,
        ...moved,
        deltaTime: 0,
        channel,
      } as MessageEvent);
  });
}

function isCopied(event: MidiEvent): event is MessageEvent {
  const { type } = event;
  return (
    type === 'controller' || type === 'pitchBend' || type === 'channelAftertouch' || type === 'noteAftertouch'
  );
}
