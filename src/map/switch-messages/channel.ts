import { field, number } from '../source/index.js';
import type { SwitchKind } from './kind.js';

export interface ChannelMessage {
  readonly kind: 'channel';
  /** 0–15 here, 1–16 in the map's text. */
  readonly channel: number;
}

/** The channel on which notes go out: nothing is sent for it, and it names no aspect. */
export const channel: SwitchKind<ChannelMessage> = {
  kind: 'channel',
  written: {
    is: 'channel',
    keys: {
      channel: {
        description: "The channel on which the articulation's notes go out, 1 to 16.",
        type: 'integer',
        minimum: 1,
        maximum: 16,
      },
    },
    needs: {},
  },
  read: (source, tree) => {
    const of = number(source, field(tree, 'channel'));
    return of === undefined ? undefined : { kind: 'channel', channel: of - 1 };
  },
  taken: (message) => ({ channel: message.channel }),
  aspect: () => 'channel',
  formatAspect: () => 'the channel',
  subject: () => 'channel',
  identity: (message) => `channel ${message.channel}`,
  covers: (one, other) => one.channel === other.channel,
  setsMore: () => false,
  isLasting: () => false,
  sends: () => [],
  writers: () => [],
  formatShort: (message) => `channel ${message.channel + 1}`,
  format: (message) => `channel ${message.channel + 1}`,
};
