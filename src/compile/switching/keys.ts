import type { MessageEvent } from '../../midi/index.js';

/** The events of switch keys on a channel, each made once. */
export interface KeyEvents {
  on(key: number): MessageEvent;
  off(key: number): MessageEvent;
}

/** Releases are note-offs (0x80) with velocity 64, the value of a device that measures none (MIDI 1.0). */
export function keyEvents(channel: number, velocity: number): KeyEvents {
  const ons = new Map<number, MessageEvent>();
  const offs = new Map<number, MessageEvent>();
  const once = (made: Map<number, MessageEvent>, key: number, make: () => MessageEvent) => {
    const event = made.get(key) ?? make();
    made.set(key, event);
    return event;
  };
  return {
    on: (noteNumber) =>
      once(ons, noteNumber, () => ({ deltaTime: 0, channel, type: 'noteOn', noteNumber, velocity })),
    off: (noteNumber) =>
      once(offs, noteNumber, () => ({ deltaTime: 0, channel, type: 'noteOff', noteNumber, velocity: 64 })),
  };
}
