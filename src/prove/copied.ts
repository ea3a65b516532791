import type { MidiEvent } from '../midi/index.js';

/** What goes to every channel that a part uses: controllers, bends and pressure. */
export const copiedTypes: ReadonlySet<MidiEvent['type']> = new Set([
  'controller',
  'pitchBend',
  'channelAftertouch',
  'noteAftertouch',
] as const);
