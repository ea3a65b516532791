import {
  channelOf,
  type Events,
  firstData,
  isChannelMessage,
  isNoteOff,
  kindOf,
  longData,
} from '../../midi/index.js';
import { isNote } from '../pairs.js';
import type { NoteChannel } from './identity.js';
import { eventName } from './names.js';

/**
 * Two ways in which events are alike that do not say the same. Of one kind are those that do the same on the same
 * channel; of one sort those that say different things about the same: a note's velocity, a controller's value. The
 * channel of a note is that of its part.
 */
export function sortsOf(noteChannel: NoteChannel) {
  const kindOfEvent = (events: Events, event: number): number | string => {
    if (!isChannelMessage(events, event))
      return `${eventName(events, event)} ${saidChannel(events, event) ?? ''}`;
    // A release is one however it is written.
    const kind = isNoteOff(events, event) ? 0x80 : kindOf(events, event);
    const channel = channelOf(events, event);
    return kind | (isNote(events, event) ? noteChannel(channel) : channel);
  };
  return {
    kindOf: kindOfEvent,
    sortOf(events: Events, event: number): number | string {
      const kind = kindOfEvent(events, event);
      if (typeof kind === 'string') return kind;
      return kindOf(events, event) < 0xc0 ? (kind << 8) | firstData(events, event) : kind << 8;
    },
  };
}

/** The channel (0–15) of a message; of a channel prefix the one that it names; undefined for all else. */
export function saidChannel(events: Events, event: number): number | undefined {
  if (isChannelMessage(events, event)) return channelOf(events, event);
  return eventName(events, event) === 'channelPrefix' ? longData(events, event)[0] : undefined;
}
