import type { MidiEvent } from '../song.js';

/** The first track name event, decoded as UTF-8, or as Latin-1 where it is not that; '' where there is none. */
export function trackName(events: readonly MidiEvent[]): string {
  for (const event of events) {
    if (event.type === 'trackName')
      return decode(Uint8Array.from(event.text, (letter) => letter.charCodeAt(0)));
    if (event.type === 'unknownMeta' && event.metatypeByte === 0x03)
      return decode(Uint8Array.from(event.data));
  }
  return '';
}

function decode(bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    // Latin-1 proper: a byte is its code point. The decoder of that name would give Windows-1252.
    return Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
  }
}
