import { type Events, longData, statusOf } from './events/index.js';

/**
 * Bank select takes effect with the program change behind it (MIDI 1.0). Reset all controllers leaves bank and program
 * as they are (RP-015).
 */
export const bankMsb = 0;
export const bankLsb = 32;
export const resetControllers = 121;

/** The sustain pedal (MIDI 1.0): down from 64 on. */
export const sustain = 64;

/** Controllers from this number on are channel mode messages (MIDI 1.0). */
export const firstChannelMode = 120;

/** Channel mode messages (MIDI 1.0): 120 is all sound off, 123 is all notes off, and 124 to 127 do the same. */
export const silencing: ReadonlySet<number> = new Set([120, 123, 124, 125, 126, 127]);

/** General MIDI System On or Off: universal non-realtime message 09, which sets a device anew (MIDI 1.0, RP-003). */
export function isSystemOn(events: Events, event: number): boolean {
  if (statusOf(events, event) !== 0xf0) return false;
  const data = longData(events, event);
  return data[0] === 0x7e && data[2] === 0x09;
}
